package sheet

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

// browser opens a browser of its own, with no window and nothing remembered.
func browser(t *testing.T) context.Context {
	t.Helper()
	name, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("chromium is not installed")
		}
		t.Skip("chromium is not installed")
	}
	profile, err := os.MkdirTemp("", "profile")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		// what the browser left running may still write there for a moment
		for range 50 {
			if os.RemoveAll(profile) == nil {
				return
			}
			time.Sleep(100 * time.Millisecond)
		}
	})
	options := []chromedp.ExecAllocatorOption{chromedp.ExecPath(name), chromedp.UserDataDir(profile)}
	for _, flag := range []string{"headless", "no-sandbox", "disable-gpu", "disable-quic", "no-first-run", "disable-background-networking", "disable-component-update", "disable-sync", "disable-dev-shm-usage"} {
		options = append(options, chromedp.Flag(flag, true))
	}
	ctx, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	return ctx
}

// contrasts finds the text on the page with the least contrast to its ground,
// by WCAG 2.2, as the browser has really coloured it.
const contrasts = `(function(){
function rgb(c){var m=c.match(/[\d.]+/g).map(Number);return m.length>3&&m[3]===0?null:m}
function lum(c){return [0.2126,0.7152,0.0722].reduce(function(s,w,i){var v=c[i]/255;return s+w*(v<=0.04045?v/12.92:Math.pow((v+0.055)/1.055,2.4))},0)}
function ground(e){for(;e;e=e.parentElement){var c=rgb(getComputedStyle(e).backgroundColor);if(c)return c}return [255,255,255]}
var least=99,n=0,w=document.createTreeWalker(document.body,NodeFilter.SHOW_TEXT);
while(w.nextNode()){var e=w.currentNode.parentElement;if(!w.currentNode.data.trim()||/SCRIPT|STYLE/.test(e.tagName))continue;n++;
var a=lum(rgb(getComputedStyle(e).color)),b=lum(ground(e));least=Math.min(least,(Math.max(a,b)+.05)/(Math.min(a,b)+.05))}
return n<10?0:least})()`

func TestBrowser(t *testing.T) {
	ctx := browser(t)
	var buoy demo.Demo
	for _, d := range demo.All() {
		if d.Name == "buoy" {
			buoy = d
		}
	}
	proof, doc := sheetOf(buoy.Text, Options{Terms: []stitch.Terms{stitch.UK}})
	file := filepath.Join(t.TempDir(), "buoy.html")
	if err := os.WriteFile(file, []byte(HTML(doc)), 0o644); err != nil {
		t.Fatal(err)
	}
	address := (&url.URL{Scheme: "file", Path: file}).String()
	var complaints, asked []string
	chromedp.ListenTarget(ctx, func(ev any) {
		switch e := ev.(type) {
		case *log.EventEntryAdded:
			complaints = append(complaints, e.Entry.Text)
		case *network.EventRequestWillBeSent:
			if !strings.HasPrefix(e.Request.URL, "file:") && !strings.HasPrefix(e.Request.URL, "data:") {
				asked = append(asked, e.Request.URL)
			}
		}
	})

	var ticked, after, text, status string
	var light, dark float64
	var wide, overflow bool
	var shot []byte
	isTicked := `Array.from(document.querySelectorAll("input")).map(b=>b.checked?b.dataset.row:"").filter(Boolean).join(" ")`
	err := chromedp.Run(ctx,
		network.Enable(), log.Enable(),
		chromedp.EmulateViewport(360, 740),
		chromedp.Navigate(address),
		chromedp.Click(`input[data-row="1-3"]`), chromedp.Click(`input[data-row="2-1"]`),
		chromedp.Evaluate(isTicked, &ticked),
		chromedp.Reload(),
		chromedp.WaitReady("main"),
		chromedp.Poll(`document.readyState==="complete"`, nil), // the ticks are set behind the page
		chromedp.Evaluate(isTicked, &after),
		chromedp.Text(".bar span", &status),
		chromedp.Evaluate(`document.querySelector("main").innerText`, &text),
		chromedp.Evaluate(`document.documentElement.scrollWidth>360`, &overflow),
		chromedp.Evaluate(contrasts, &light),
		emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}),
		chromedp.Evaluate(contrasts, &dark),
		chromedp.FullScreenshot(&shot, 100),
		chromedp.Evaluate(`getComputedStyle(document.body).backgroundColor==="rgb(20, 25, 28)"`, &wide),
	)
	if err != nil {
		t.Fatal(err)
	}
	if ticked != "1-3 2-1" || after != ticked {
		t.Errorf("ticked %q, and %q after a reload", ticked, after)
	}
	if status != "2 of 11 ticked" {
		t.Errorf("the bar says %q", status)
	}
	if bad := Unlike(proof.Pattern, proof.Terms, pattern.Read(text)); len(bad) > 0 {
		t.Errorf("the text of the page: %s\n%s", strings.Join(bad, "\n"), text)
	}
	if overflow {
		t.Error("the page is wider than a phone")
	}
	if !wide {
		t.Error("the page is not dark where dark is asked for")
	}
	if light < 4.5 || dark < 4.5 {
		t.Errorf("the least contrast is %.2f on light and %.2f on dark, want 4.5", light, dark)
	}
	if len(asked) > 0 || len(complaints) > 0 {
		t.Errorf("the page asks for %q; the browser complains: %q", asked, complaints)
	}
	if dir := os.Getenv("TALLYTURN_SHOTS"); dir != "" { // to look at
		if err := os.WriteFile(filepath.Join(dir, "buoy-dark.png"), shot, 0o644); err != nil {
			t.Fatal(err)
		}
	}

	// Without scripts, and printed, it can be read all the same.
	var plain string
	var printed []byte
	err = chromedp.Run(ctx,
		emulation.SetScriptExecutionDisabled(true),
		chromedp.Navigate(address),
		chromedp.Text("main", &plain),
		chromedp.ActionFunc(func(ctx context.Context) (err error) {
			printed, _, err = page.PrintToPDF().Do(ctx)
			return err
		}),
	)
	if err != nil {
		t.Fatal(err)
	}
	if bad := Unlike(proof.Pattern, proof.Terms, pattern.Read(plain)); len(bad) > 0 {
		t.Errorf("the text of the page without scripts: %s", strings.Join(bad, "\n"))
	}
	if strings.Contains(plain, "Clear the ticks") || len(printed) < 1000 {
		t.Errorf("without scripts: %d bytes printed\n%s", len(printed), plain)
	}
}
