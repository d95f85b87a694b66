package pattern

import (
	"strings"
	"sync"
	"unicode/utf8"

	"crochet/tallyturn/pattern/stitch"
)

// opening is a set of the productions of a row that a word can begin.
//
// Every production is tried at nearly every word, and nearly always fails at
// its first one. So the lexer looks each word up once, and a production whose
// bit is missing is not tried at all. The lists are no part of the grammar: a
// word too many costs time, a word too few would change what is read, which
// TestOpenings holds to.
type opening uint32

const (
	opensRepeat  opening = 1 << iota // see repeat
	opensEnding                      // ending
	opensRefer                       // refer
	opensClosing                     // edges, fold, bothLayers
	opensNote                        // note
	opensOther                       // otherSide
	opensPicot                       // picot
	opensChain                       // chain
	opensSkip                        // skip
	opensControl                     // control
	opensStart                       // startAt
	opensRing                        // ring
	opensAttach                      // attach
	opensColour                      // colour
	opensChange                      // everyNth, delta
	opensEven                        // shape
	opensFree                        // work along an edge, in finish
	opensPart                        // otherPart
	opensTimes                       // times
	opensBound                       // bound
	opensQuality                     // qualify
	opensLoops                       // loops
	opensTog                         // together
	opensIncDec                      // incDec
	opensCounts                      // readCounts
	opensClose                       // ringClose
	opensTotal                       // totalAhead
	opensJoint                       // connector
	opensLast                        // lastWhere
	opensStitch                      // the name of a stitch, on either side
)

// openings lists the words and marks that can begin each production. A number
// begins those of kindOpens.
var openings = []struct {
	opens opening
	words string
}{
	{opensRepeat, "alternate alternating keep carry continue continuing go rep repeat rpt repeating from work"},
	{opensEnding, "end ending ends finish finishing"},
	{opensRefer, "alternate alternating alternately between in betw bet at before after similarly likewise these those then cont carrying keeping increasing decreasing for over on always there only except all both each every so and worked made done and then once twice again one keep carry with but having now [ ( row rows rnd rnds round rounds r go do work make crochet repeat exactly just much rep rpt repeating reps working follow knit continue the same as like identical mesh eyelets holes pattern patt shells fans"},
	{opensClosing, "hold holding place placing put putting lay laying join seam whipstitch whip graft close fold folding flatten flattening pinch press squash squish work working crochet crocheting going closing in into through thru thro please then now finally bring"},
	{opensNote, "fix position secure retaining retain hold fit mount eyes eye nose mouth cheeks eyebrows whiskers buttons safety then going passing coming holding keeping leaving all which that with the keep in through into count include reckon counting including omit omitting without leaving alternate alternating working making work placing separated divided " +
		"place pm mark move remove put slip marking replace moving rm sm slide use using taking picking proceed " +
		"roll pop snip swing push tuck wash dry turn stuff sew weave pull insert attach weaving sewing thread stuffing add embroider glue fill tighten block steam whipstitch whip fold flatten pin hide tie trim wrap gather cinch darn close rotate flip press shape tack stitch " +
		"putting being careful be make note nb tip remember don't do does take check " +
		"this these it there if when for because you your here since at after before while optional now from again " +
		"rs ws right wrong worked continue cont continuing begin beginning start starting commence commencing crochet crocheting carry carrying back along over across reverse up " +
		"blo flo bl fl loosely evenly tightly gently throughout everywhere repeatedly beg mr " +
		"so completing finishing photo see picture video fig figure refer nb: finished finish complete done end ends edging approx approximately total left right-handed secure securing both pick drop dropping always every each as " +
		"yo yoh yrh draw yarn instead rather " +
		"a an one first beg picot picots shell half cluster cl popcorn pc puff bobble v fan petal scallop block bl space sp mesh corner loop group motif cable cross"},
	{opensOther | opensNote | opensControl, "now turn pivot rotate spin flip carry carrying swing swinging move go come keep working work continue continuing cont crochet proceed around round back down and to up in on along into across over of at the bottom underside opposite other unused second remaining free under reverse"},
	{opensPicot, "make work a ch chain one picot picots p"},
	{opensChain, "rising raising lifting standing climbing height initial to first firstly okay ok so over on upon along turning beginning beg ch chain chs cha cast begin start starting beginning commence commencing make work with using in a foundation base initial form ring circle"},
	{opensSkip, "skip sk miss skp skipping missing omit pass leave ignore ignoring"},
	{opensControl, "off turn turning stop end finish and do does don't without never no fasten tie bind cast close break cut fo f fastening foff finished clip snip broken " +
		"invisible inv seamless join connect joining joined closed closing unite leave leaving"},
	{opensStart | opensControl, "beginning starting begin start off in into with at from"},
	{opensRing | opensControl, "over around round onto on curtain plastic wire metal wooden bone brass wood bamboo cabone rubber hair key napkin macrame hoop bangle make start begin create form starting using with into inside working work in a an the ring circle loop mr mc magic adjustable sliding slip slipping thread yarn finger wrapped drawstring running closing amigurumi standing stdg chainless regular plain joint single joined turning beginning beg turn initial corner corners marked marker"},
	{opensAttach | opensControl, "connect connecting , with using rs ws new join attach rejoin reattach tie fasten joining insert fix start re"},
	{opensColour | opensControl, "break change switch changing switching swap go return going returning take now and then cc col colour color pick drop carry cut carrying dropping join with in using use"},
	{opensChange, "just simply exactly much right same each every as in like repeat rep similarly likewise the these those then now so add adding lose losing drop dropping there you do doing crochet over on for go making working with but work and while by at on in along a an make continue cont continuing keep carry incs decs decr incr decreases increases increasing increase inc decreasing decrease dec"},
	{opensEven, "after next finally lastly leave you we i now then just simply all do proceed carry round to backwards no without nor neither the in this that on over for another an next plain evenly a go about approximately approx roughly around with and making work continue cont working crochet knit even straight continuing keeping keep maintaining maintain following pat patt pats patts pattern"},
	{opensFree, "closely all on around round along to for in"},
	{opensPart, "in into around round on along across over all from"},
	{opensTimes, "on ( [ * x do work repeat for a total of another further once twice thrice times"},
	{opensBound | opensTimes, "across along acr around round rnd about arnd evenly all right the for in to until till til through thru from up as within"},
	{opensQuality, "( with of on from fr off as below that which after there left remaining afterwards first last just made at in along beyond past beside between bet betw"},
	{opensLoops, "the back front rear both unused free remaining top third far near blo flo bl fl tbl tfl blp flp bls fls horizontal b f"},
	{opensTog, "- the in next first last following foll"},
	{opensIncDec, "- invisible inv invis standard simple inc incs increase increases increasing invinc incr dec decs decrease decreases decreasing invdec invd decr tog together work crochet next draw working off take taking"},
	{opensCounts, "- = the your other turning beginning beg starting this skipped first these missed ch chain chs chains which that it here always now and will isn't aren't is are no do does doesn't don't won't not never didn't uncounted that's it's count counts counted counting considered stands standing reckoned taken replaces acts forms represents equals stand as becomes to for in up a an one"},
	{opensClose, "taking take be making make but careful care sure no not don't do being without join close connect joined closed s sl slip ss slst"},
	{opensTotal, countTalkWords + " " + changeUpWords + " " + changeDownWords + " " + changeTalkWords + " having with should shd shld always ( [ { < - = : . ; , / ~ | > you you'll you'd you're you've we're so at by after on making there total sts stitches count stitch for giving leaving ending st now to work that's thats still leaves that which this it ends finishes finishing end finish down up back"},
	{opensJoint, "you we i u do place have go putting placing doing except save crochet always and then & also now + next work make pop but put just simply the plus working making to a with"},
	{opensLast, "the last final"},
}

// kindOpens is what a token can begin for being of its kind.
var kindOpens = [...]opening{
	tNum:   opensEven | opensRefer | opensNote | opensPicot | opensChain | opensControl | opensColour | opensChange | opensTimes | opensQuality | opensTog | opensCounts | opensTotal,
	tOrd:   opensLoops | opensCounts | opensControl | opensStart,
	tPunct: 0,
}

// meaning is what the lexer knows of a word.
type meaning struct {
	num   int64 // of "three", "third"
	kind  kind  // tWord, tNum or tOrd
	opens opening
	id    uint16 // in a wordSet, or 0
}

// vocabulary holds every word that means something by itself, and marks. It is
// put together when the first pattern is read: the start does not wait for it.
var vocabulary = sync.OnceValue(newVocabulary)

func newVocabulary() map[string]meaning {
	v := make(map[string]meaning, 1024)
	add := func(w string, o opening) {
		m, ok := v[w]
		if !ok {
			m.kind = tWord
		}
		m.opens |= o
		v[w] = m
	}
	for w, n := range numberWords {
		v[w] = meaning{num: n, kind: tNum}
	}
	for w, n := range ordinalWords {
		v[w] = meaning{num: n, kind: tOrd}
	}
	for _, o := range openings {
		for _, w := range strings.Fields(o.words) {
			add(w, o.opens)
		}
	}
	for _, terms := range []stitch.Terms{stitch.US, stitch.UK} {
		names := stitch.LexiconFor(terms)
		for _, w := range names.FirstWords(stitch.None) {
			add(w, opensStitch)
		}
		for _, w := range names.FirstWords(stitch.Slip) {
			add(w, opensControl) // a slip stitch may join
		}
	}
	for i := range setsMade {
		setBits[i].fill(setWords[i], v)
	}
	return v
}

// openingOf is what a word, or the first of several, can begin.
func openingOf(words string) opening {
	first, _, _ := strings.Cut(words, " ")
	return vocabulary()[first].opens
}

// opens reports whether one of the productions can begin with the token.
func (t *token) opens(o opening) bool { return (t.opening|kindOpens[t.kind])&o != 0 }

// markOpens is what each mark of ASCII can begin.
var markOpens = sync.OnceValue(func() *[utf8.RuneSelf]opening {
	marks := new([utf8.RuneSelf]opening)
	for c := range marks {
		marks[c] = vocabulary()[string(rune(c))].opens
	}
	return marks
})
