(function(){"use strict";
var key="tallyturn-sheet-"+document.body.getAttribute("data-sheet"),kept={},bar=document.querySelector(".bar");
try{kept=JSON.parse(localStorage.getItem(key)||"{}")||{}}catch(e){return}
var boxes=Array.prototype.slice.call(document.querySelectorAll("input[data-row]"));
if(!boxes.length||!bar){return}
function show(){var seen={},n=0,of=0;boxes.forEach(function(b){var r=b.getAttribute("data-row");b.checked=kept[r]===1;if(!seen[r]){seen[r]=1;of++;if(b.checked){n++}}});bar.firstElementChild.textContent=n+" of "+of+" ticked"}
function keep(){try{localStorage.setItem(key,JSON.stringify(kept))}catch(e){}show()}
boxes.forEach(function(b){b.addEventListener("change",function(){var r=b.getAttribute("data-row");if(b.checked){kept[r]=1}else{delete kept[r]}keep()})});
bar.querySelector("button").addEventListener("click",function(){if(confirm("Take all ticks away?")){kept={};keep()}});
window.addEventListener("storage",function(e){if(e.key===key){try{kept=JSON.parse(e.newValue||"{}")||{}}catch(x){kept={}}show()}});
bar.hidden=false;show()})();
