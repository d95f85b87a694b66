package film_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/pattern"
)

const mussel = `Mussel

US terms

Shell (make 2)
Ch 5.
Row 1: Sc in 2nd ch from hook and in each ch across. (4)
Row 2: Ch 1, turn, 2 sc in first st, sc in next 2 sts, 2 sc in last st. (6)
Rows 3-5: Ch 1, turn, sc in each st across. (6)
Fasten off.

Finishing
Sew the shells together.
`

// musselMended has a row put in after the first.
var musselMended = strings.Replace(mussel, "Row 2:", "Row 2: Ch 1, turn, sc in each st across. (4)\nRow 3:", 1)

func plan(text string) *counter.Plan {
	return counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))
}

// noon is when filming begins, in ms since the Unix epoch.
const noon = 1_790_000_000_000

// logOf reads a script: each word is an event, "12.5" the seconds since noon
// at which the next ones happen; a number and a colon before a tap repeat it.
//
//	roll cut open close back redo tap tap3 finish finish19 carry3 count3 check3
//	remark:word again jump:piece,copy,row,stitch rip:piece,copy,row,stitch
//	camera:take,name code:take,timecode clap:take,ms
//	choose:piece,copy,row,way,n alike:way,n rate:n
func logOf(t testing.TB, script string) (log []counter.Event) {
	t.Helper()
	at := int64(noon)
	for _, word := range strings.Fields(script) {
		if s, err := strconv.ParseFloat(word, 64); err == nil {
			at = noon + int64(s*1000+0.5)
			continue
		}
		e := counter.Event{At: at}
		name, rest, _ := strings.Cut(word, ":")
		args := strings.Split(rest, ",")
		n := func(i int) int64 {
			v, err := strconv.ParseInt(args[i], 10, 64)
			if err != nil {
				t.Fatalf("%s: %v", word, err)
			}
			return v
		}
		bare := strings.TrimRight(name, "0123456789")
		given, _ := strconv.ParseInt(name[len(bare):], 10, 64)
		kinds := map[string]counter.Kind{
			"roll": counter.BeginTake, "cut": counter.EndTake, "open": counter.Open, "close": counter.Close,
			"back": counter.Back, "redo": counter.Redo, "tap": counter.Tap, "finish": counter.Finish,
			"carry": counter.Carry, "count": counter.Count, "check": counter.Check, "remark": counter.Remark,
			"again": counter.FromHere, "jump": counter.Jump, "rip": counter.Unravel, "camera": counter.Camera,
			"code": counter.Timecode, "clap": counter.Clap, "choose": counter.Choose, "alike": counter.Alike,
			"rate": counter.SpeakAt, "mend": counter.Rewrite,
		}
		if e.Kind = kinds[bare]; e.Kind == 0 {
			t.Fatalf("%s: what is that?", word)
		}
		switch e.Kind {
		case counter.Tap:
			e.N = max(given, 1)
		case counter.Finish:
			if e.N = given; bare == name {
				e.N = counter.NotCounted
			}
		case counter.Carry, counter.Count, counter.Check:
			e.N = given
		case counter.Remark:
			e.Text = rest
		case counter.Jump, counter.Unravel:
			e.Piece, e.Copy, e.Row, e.N = int(n(0)), int(n(1)), int(n(2)), n(3)
		case counter.Camera, counter.Timecode:
			e.Row, e.Text = int(n(0))-1, args[1]
		case counter.Clap:
			e.Row, e.N = int(n(0))-1, n(1)
		case counter.Choose:
			e.Piece, e.Copy, e.Row, e.Text, e.N = int(n(0)), int(n(1)), int(n(2)), args[3], n(4)
		case counter.Alike:
			e.Text, e.N = args[0], n(1)
		case counter.SpeakAt:
			e.N = n(0)
		case counter.Rewrite:
			e.Text = musselMended
		}
		log = append(log, e)
	}
	return log
}

// told is a session in words, a line a take, a try or a mark.
func told(s *film.Session) string {
	var b strings.Builder
	for _, take := range s.Takes {
		fmt.Fprintf(&b, "take %d %s, %d ms", take.Number, take.End, take.Length)
		if take.Camera != "" || take.Timecode != "" || take.ClapAt > 0 {
			fmt.Fprintf(&b, " %s %s %d", take.Camera, take.Timecode, take.ClapAt)
		}
		b.WriteByte('\n')
		for _, t := range s.Tries {
			if t.Take == take.Number {
				fmt.Fprintf(&b, "  %d-%d %s", t.From, t.To, t.Label)
				if t.Piece >= 0 {
					fmt.Fprintf(&b, " (%d,%d,%d) %d-%d", t.Piece, t.Copy, t.Row, t.FromStitch, t.ToStitch)
				}
				if t.Ended {
					b.WriteString(" ended")
				}
				if t.Unused != film.Used {
					fmt.Fprintf(&b, " (%v)", t.Unused)
				}
				b.WriteByte('\n')
			}
		}
		for _, m := range s.Marks {
			if m.Take == take.Number {
				fmt.Fprintf(&b, "  @%d %s %s", m.At, [...]string{film.RowBegun: "begun", film.RowEnded: "ended",
					film.Instruction: "does", film.Counted: "counted", film.Slipped: "slip", film.Unravelled: "ripped",
					film.Again: "again", film.OwnWord: "says"}[m.Kind], m.Text)
				if m.TakenBack {
					b.WriteString(" (mended)")
				}
				b.WriteByte('\n')
			}
		}
	}
	return b.String()
}

func TestSessions(t *testing.T) {
	for _, test := range []struct{ name, script, want string }{
		{"several rows a take", "open 1 roll 3 tap 5 tap3 6 finish4 9.5 tap6 10 finish6 12.345 cut 13 tap", `
take 1 ended, 11345 ms
  0-5000 Row 1 (0,0,0) 0-4 ended
  5000-11345 Row 2 (0,0,1) 0-6 ended
  @0 begun Row 1
  @2000 does in each ch across
  @5000 ended 4
  @5000 begun Row 2
  @9000 ended 6
`},
		{"several takes a row", "open 1 roll 3 tap2 4 cut 8 roll 10 tap2 11 finish4 12 cut", `
take 1 ended, 3000 ms
  0-3000 Row 1 (0,0,0) 0-2
  @0 begun Row 1
  @2000 does in each ch across
take 2 ended, 4000 ms
  0-4000 Row 1 (0,0,0) 2-4 ended
  @0 begun Row 1, from stitch 3
  @3000 ended 4
`},
		{"again from the beginning of the row", "open 0 roll 2 tap 3 tap 4 back back again 6 tap4 7 finish4 cut", `
take 1 ended, 7000 ms
  0-4000 Row 1 (0,0,0) 0-0 (done again)
  4000-7000 Row 1 (0,0,0) 0-4 ended
  @0 begun Row 1
  @4000 again 
  @4000 begun Row 1
  @7000 ended 4
`},
		{"again from a stitch, in a later take", "open 0 roll 2 tap 3 tap 4 tap 5 cut 6 rip:0,0,0,2 10 roll again 12 tap2 finish4 13 cut", `
take 1 ended, 5000 ms
  0-3000 Row 1 (0,0,0) 0-2
  3000-5000 Row 1 (0,0,0) 2-3 (unravelled)
  @0 begun Row 1
  @2000 does in each ch across
take 2 ended, 3000 ms
  0-3000 Row 1 (0,0,0) 2-4 ended
  @0 begun Row 1, from stitch 3
  @0 again 
  @0 begun Row 1, from stitch 3
  @2000 ended 4
`},
		{"unravelled in the take", "open 0 roll 2 tap4 finish4 5 tap6 finish6 7 tap3 9 rip:0,0,1,0 12 cut", `
take 1 ended, 12000 ms
  0-2000 Row 1 (0,0,0) 0-4 ended
  2000-5000 Row 2 (0,0,1) 0-6 ended (unravelled)
  5000-9000 Row 3 (0,0,2) 0-3 (unravelled)
  9000-12000 Row 2 (0,0,1) 0-0
  @0 begun Row 1
  @2000 ended 4
  @2000 begun Row 2
  @5000 ended 6
  @5000 begun Row 3
  @9000 ripped 
  @9000 begun Row 2
`},
		{"an unravelling by mistake", "open 0 roll 2 tap4 finish4 5 rip:0,0,0,0 6 back 9 cut", `
take 1 ended, 9000 ms
  0-9000 Row 1 (0,0,0) 0-4 ended
  @0 begun Row 1
  @2000 ended 4
`},
		{"a row ended too early", "open 0 roll 2 tap3 3 finish3 4 back 5 tap 6 finish4 7 cut", `
take 1 ended, 7000 ms
  0-7000 Row 1 (0,0,0) 0-4 ended
  @0 begun Row 1
  @2000 does in each ch across
  @3000 slip 3 for 4 (mended)
  @6000 ended 4
`},
		{"taken back far, and done again", "open 0 roll 2 tap4 3 finish4 4 tap3 5 back back back 6 redo redo redo 7 cut", `
take 1 ended, 7000 ms
  0-3000 Row 1 (0,0,0) 0-4 ended
  3000-7000 Row 2 (0,0,1) 0-3
  @0 begun Row 1
  @3000 ended 4
  @3000 begun Row 2
  @4000 does sc in next 2 sts
`},
		{"a slip carried on with", "open 0 roll 2 tap4 3 carry5 4 check1 5 cut", `
take 1 ended, 5000 ms
  0-3000 Row 1 (0,0,0) 0-4 ended
  3000-5000 Row 2 (0,0,1) 0-0
  @0 begun Row 1
  @3000 slip 5 for 4
  @3000 ended 5
  @3000 begun Row 2
  @4000 slip 1 for 0
`},
		{"a crash", "open 0 roll 2.001 tap2 8.75 remark:light 9 back redo 100 open 101 tap2 finish4 102 roll 103 close", `
take 1 broke off; it ends at its last mark, 9000 ms
  0-9000 Row 1 (0,0,0) 0-2
  @0 begun Row 1
  @2001 does in each ch across
  @8750 says light
take 2 ended by leaving, 1000 ms
  0-1000 Row 2 (0,0,1) 0-0
  @0 begun Row 2
`},
		{"camera files, then and later", "open 0 roll camera:1,A001 3 cut roll 5 cut camera:2,B camera:2,C back code:2,01:00:00:00 clap:1,250", `
take 1 ended, 3000 ms A001  250
  0-3000 Row 1 (0,0,0) 0-0
  @0 begun Row 1
take 2 ended, 2000 ms B 01:00:00:00 0
  0-2000 Row 1 (0,0,0) 0-0
  @0 begun Row 1
`},
		{"a clock set back", "open 10 roll 12 tap 3 tap 4 cut", `
take 1 ended, 2000 ms
  0-2000 Row 1 (0,0,0) 0-2
  @0 begun Row 1
  @2000 does in each ch across
`},
		{"another text of the pattern", "open 0 roll 2 tap4 finish4 4 tap 5 mend 8 cut", `
take 1 ended, 8000 ms
  0-2000 Row 1 (0,0,0) 0-4 ended
  2000-8000 Row 3 (0,0,2) 0-1
  @0 begun Row 1
  @2000 ended 4
  @2000 begun Row 2
`},
		{"a take of the making up", "open 0 jump:0,0,4,6 finish6 jump:0,1,4,6 3 finish6 5 roll 8 cut", `
take 1 ended, 3000 ms
  0-3000 Making up
`},
		{"taps on either side of a take", "open 0 tap 1 roll 2 cut tap 3 back back 4 roll 5 cut", `
take 1 ended, 1000 ms
  0-1000 Row 1 (0,0,0) 0-0
  @0 begun Row 1
take 2 ended, 1000 ms
  0-1000 Row 1 (0,0,0) 0-0
  @0 begun Row 1
`},
	} {
		t.Run(test.name, func(t *testing.T) {
			log := logOf(t, test.script)
			if _, refused := counter.Replay(plan(mussel), log); refused != nil {
				t.Fatalf("refused: %v", refused)
			}
			if got := told(film.Of(plan(mussel), log)); "\n"+got != test.want {
				t.Errorf("got\n%s", got)
			}
		})
	}
}

func TestTakeOn(t *testing.T) {
	s := film.Of(plan(mussel), logOf(t, "open 0 roll 2 tap"))
	take, on := s.Rolling()
	if !on || take.Length != 2000 || take.Since(noon+5000) != 5000 || take.Since(noon+1) != 2000 || take.Since(noon-1) != 2000 {
		t.Errorf("%+v, %v", take, on)
	}
	if got := take.Since(1 << 62); got != film.MaxTime {
		t.Errorf("a clock that leaps: %d", got)
	}
	if _, on := film.Of(plan(mussel), logOf(t, "open 0 roll 2 cut")).Rolling(); on {
		t.Error("it is on though it ended")
	}
}
