package counter_test

import (
	"errors"
	"fmt"
	"math/bits"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// unrolled is a row stitch by stitch, in the plainest way.
type unrolled struct {
	leaf  []int   // which time through which instruction makes each stitch
	unit  []int64 // stitches made with it in its place
	group []int   // the group it belongs to
	real  []int64 // how many there are of it in truth
}

func (u *unrolled) count(from, to int64) (n int64) {
	for _, r := range u.real[from:to] {
		n += r
	}
	return n
}

func (u *unrolled) groups() int64 { return int64(u.group[len(u.group)-1] + 1) }

// lay adds one time through an instruction of n stitches, made unit at a time.
func (u *unrolled) lay(n, unit int64) {
	leaf, group := 0, -1
	if len(u.leaf) > 0 {
		leaf, group = u.leaf[len(u.leaf)-1]+1, u.group[len(u.group)-1]
	}
	per := n
	if unit > 0 && n > 10 {
		per = max(10/unit, 1) * unit
	}
	for i := range n {
		if i%per == 0 {
			group++
		}
		u.leaf, u.unit, u.group, u.real = append(u.leaf, leaf), append(u.unit, max(unit, 1)), append(u.group, group), append(u.real, 1)
	}
}

func (u *unrolled) layTrace(t *pattern.Trace) {
	if t.Kids == nil {
		if t.Stitches > 0 {
			unit := max(t.Step.N.N, 1)
			if t.Step.Target.Which == pattern.InRing {
				unit = 0
			}
			u.lay(t.Stitches, unit)
		}
		return
	}
	for range t.Times {
		for _, k := range t.Kids {
			u.layTrace(k)
		}
	}
}

// drawTrace draws some instructions and repeats.
func drawTrace(t *rapid.T, depth int) *pattern.Trace {
	seq := &pattern.Trace{Times: 1}
	for range rapid.IntRange(1, 4).Draw(t, "instructions") {
		var k *pattern.Trace
		switch kind := rapid.IntRange(0, 6).Draw(t, "kind"); {
		case kind <= 1 && depth < 3:
			body := drawTrace(t, depth+1)
			n := rapid.Int64Range(1, 7).Draw(t, "passes")
			k = &pattern.Trace{Step: &pattern.Step{Op: pattern.OpGroup}, Times: n, First: 1, Of: n, Stitches: body.Stitches, Kids: body.Kids}
		case kind == 2:
			n := rapid.Int64Range(1, 12).Draw(t, "increases")
			k = &pattern.Trace{Step: &pattern.Step{Op: pattern.OpWork, N: pattern.Num{N: 2}, Target: pattern.Target{Which: pattern.Each}}, Times: 1, Stitches: 2 * n}
		case kind == 3:
			n := rapid.Int64Range(1, 3).Draw(t, "decreases")
			k = &pattern.Trace{Step: &pattern.Step{Op: pattern.OpWork, Legs: 2}, Times: 1, Stitches: n}
		case kind == 4:
			k = &pattern.Trace{Step: &pattern.Step{Op: pattern.OpTurn}, Times: 1}
		case kind == 5:
			n := rapid.Int64Range(1, 12).Draw(t, "in the ring")
			k = &pattern.Trace{Step: &pattern.Step{Op: pattern.OpWork, N: pattern.Num{N: n}, Target: pattern.Target{Which: pattern.InRing}}, Times: 1, Stitches: n}
		default:
			n := rapid.Int64Range(1, 33).Draw(t, "plain")
			k = &pattern.Trace{Step: &pattern.Step{Op: pattern.OpWork, N: pattern.Num{N: 1}}, Times: 1, Stitches: n}
		}
		seq.Kids = append(seq.Kids, k)
		n := k.Stitches
		if k.Kids != nil {
			n *= k.Times
		}
		seq.Stitches += n
	}
	if seq.Stitches == 0 {
		seq.Kids = append(seq.Kids, &pattern.Trace{Step: &pattern.Step{Op: pattern.OpWork}, Times: 1, Stitches: 1})
		seq.Stitches = 1
	}
	return seq
}

// slip makes a slip in the stitch at: a stitch missed, one too many, or the
// whole of its place passed over.
func (u *unrolled) slip(t *rapid.T, at int) {
	switch rapid.IntRange(0, 2).Draw(t, "slip") {
	case 0:
		u.real[at] = 0
	case 1:
		u.real[at] = 2
	case 2:
		begin := at
		for begin > 0 && u.leaf[begin-1] == u.leaf[at] {
			begin--
		}
		first := at - (at-begin)%int(u.unit[at])
		for i := first; i < first+int(u.unit[at]) && i < len(u.real); i++ {
			u.real[i] = 0
		}
	}
}

// seekSlip answers the questions of a hunt from what is there.
func seekSlip(t interface{ Fatalf(string, ...any) }, s counter.State, rows []*unrolled) counter.State {
	for i := range 200 {
		h, ok := s.Hunt()
		if !ok {
			t.Fatalf("the hunt is gone")
		}
		q, more := h.Question()
		if !more {
			return s
		}
		if q.To.Stitch-q.From.Stitch != q.Expect || q.From.Words == "" || q.To.Words == "" {
			t.Fatalf("question %+v", q)
		}
		next, err := s.Apply(counter.Event{Kind: counter.Answer, At: int64(i), N: rows[q.Row].count(q.From.Stitch, q.To.Stitch)})
		if err != nil {
			t.Fatalf("answer: %v", err)
		}
		s = next
	}
	t.Fatalf("the hunt does not end")
	return s
}

func ceilLog2(n int64) int { return bits.Len64(uint64(max(n, 1) - 1)) }

// oneRow is a walk that stands after so many stitches of a row.
func oneRow(trace *pattern.Trace) *counter.Plan {
	return counter.NewPlan(&pattern.Proof{Pieces: []*pattern.PieceProof{{
		Piece: &pattern.Piece{Copies: 1},
		Rows:  []*pattern.RowProof{{First: 1, Last: 1, Made: trace.Stitches, Status: pattern.Unstated, Trace: trace}},
	}}})
}

func TestHuntFindsTheSlip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trace := drawTrace(t, 0)
		u := &unrolled{}
		u.layTrace(trace)
		total := int64(len(u.leaf))
		s := counter.Begin(oneRow(trace))
		end := total
		if rapid.Bool().Draw(t, "in the middle") {
			end = rapid.Int64Range(1, total).Draw(t, "worked")
		}
		slips := rapid.IntRange(1, 2).Draw(t, "slips")
		for range slips {
			u.slip(t, rapid.IntRange(0, int(end)-1).Draw(t, "at"))
		}
		if u.count(0, end) == end {
			t.Skip("two slips that make up for each other are no difference")
		}
		mustApply := func(e counter.Event) {
			next, err := s.Apply(e)
			if err != nil {
				t.Fatalf("%+v: %v", e, err)
			}
			s = next
		}
		for range rapid.IntRange(0, 3).Draw(t, "markers") {
			at := rapid.Int64Range(0, end-1).Draw(t, "marker")
			if _, there := s.MarkerAt(counter.Place{Stitch: at}); !there {
				mustApply(counter.Event{Kind: counter.Mark, N: at})
			}
		}
		// On the way she counts now and then, rightly.
		for s.Stitch() < end {
			mustApply(counter.Event{Kind: counter.Tap, N: rapid.Int64Range(1, end-s.Stitch()).Draw(t, "stride")})
			if rapid.IntRange(0, 3).Draw(t, "counts") == 0 {
				mustApply(counter.Event{Kind: counter.Check, N: u.count(0, s.Stitch())})
			}
		}
		known := int64(counter.NotCounted)
		if rapid.Bool().Draw(t, "counted") {
			known = u.count(0, end)
		}
		mustApply(counter.Event{Kind: counter.Seek, N: known})
		begun := s
		s = seekSlip(t, s, []*unrolled{u})
		h, _ := s.Hunt()
		slip, found := h.Slip()
		if !found {
			t.Fatalf("nothing found")
		}
		if slip.From < 0 || slip.To <= slip.From || slip.To > end {
			t.Fatalf("found %+v in %d stitches", slip, end)
		}
		if n := u.count(slip.From, slip.To) - (slip.To - slip.From); n == 0 || n != slip.Dev {
			t.Fatalf("found %+v, which differs by %d", slip, n)
		}
		if u.group[slip.From] != u.group[slip.To-1] {
			t.Fatalf("found %+v, which is more than a group", slip)
		}
		if slip.Where == "" || slip.Mend == "" {
			t.Fatalf("found %+v without words", slip)
		}
		if most := ceilLog2(u.groups()) + 1; h.Asked() > most {
			t.Fatalf("%d questions for %d groups", h.Asked(), u.groups())
		}
		// A wrong answer is taken back, and the hunt goes on as if it had not been.
		if first, _ := begun.Hunt(); rapid.Bool().Draw(t, "a wrong answer") {
			if q, more := first.Question(); more {
				s = begun
				mustApply(counter.Event{Kind: counter.Answer, N: q.Expect + 7})
				mustApply(counter.Event{Kind: counter.Back})
				s = seekSlip(t, s, []*unrolled{u})
				again, _ := s.Hunt()
				if got, _ := again.Slip(); fmt.Sprint(got) != fmt.Sprint(slip) || again.Asked() != h.Asked() {
					t.Fatalf("with an answer taken back %+v, without %+v", got, slip)
				}
			}
		}
	})
}

// Where rows before were not counted, the hunt finds the row first.
func TestHuntFindsTheRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 20).Draw(t, "rows")
		wrong := rapid.IntRange(0, n-1).Draw(t, "wrong")
		counted := rapid.IntRange(-1, wrong-1).Draw(t, "counted")
		pp := &pattern.PieceProof{Piece: &pattern.Piece{Copies: 1}}
		var rows []*unrolled
		for i := range n {
			trace := drawTrace(t, 1)
			pp.Rows = append(pp.Rows, &pattern.RowProof{First: i + 1, Last: i + 1, Index: i, Made: trace.Stitches, Status: pattern.Unstated, Trace: trace})
			u := &unrolled{}
			u.layTrace(trace)
			if i >= wrong {
				u.real[rapid.IntRange(0, len(u.real)-1).Draw(t, "at")] = 0
			}
			rows = append(rows, u)
		}
		s := counter.Begin(planOf(pp))
		mustApply := func(e counter.Event) {
			next, err := s.Apply(e)
			if err != nil {
				t.Fatalf("%+v: %v", e, err)
			}
			s = next
		}
		for i := range n - 1 {
			e := counter.Event{Kind: counter.Finish, N: counter.NotCounted}
			if i <= counted {
				e.N = int64(len(rows[i].leaf))
			}
			mustApply(e)
		}
		mustApply(counter.Event{Kind: counter.Tap, N: int64(len(rows[n-1].leaf))})
		mustApply(counter.Event{Kind: counter.Seek, Row: n - 1, N: rows[n-1].count(0, int64(len(rows[n-1].leaf)))})
		s = seekSlip(t, s, rows)
		h, _ := s.Hunt()
		slip, _ := h.Slip()
		if slip.Row != wrong || rows[wrong].count(slip.From, slip.To) == slip.To-slip.From {
			t.Fatalf("found %+v, the slip is in row %d", slip, wrong)
		}
		if most := ceilLog2(int64(n-1-counted)) + ceilLog2(rows[wrong].groups()) + 1; h.Asked() > most {
			t.Fatalf("%d questions for %d rows and %d groups", h.Asked(), n-1-counted, rows[wrong].groups())
		}
	})
}

func read(text string) *counter.Plan {
	return counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))
}

const limpet = `Limpet

US terms

Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 4: Change to B, (sc in next 2 sts, 2 sc in next st) 6 times. (24)
Rnds 5-6: Sc in each st around. (24)
Rnd 7: (Sc in next 2 sts, sc2tog) 6 times. (18)
`

func TestHuntInWords(t *testing.T) {
	// Pass 5 of round 4 lacks its increase; the maker ends the round and counts.
	s := walk(t, read(limpet), "finish6 finish12 finish18 tap24")
	s = apply(t, s, counter.Event{Kind: counter.Seek, Row: 3, N: 23})
	var said []string
	for {
		h, _ := s.Hunt()
		q, more := h.Question()
		if !more {
			break
		}
		n := q.Expect
		if q.From.Stitch <= 18 && q.To.Stitch > 19 {
			n--
		}
		said = append(said, fmt.Sprintf("%s to %s: %d", q.From.Words, q.To.Words, n))
		s = apply(t, s, counter.Event{Kind: counter.Answer, N: n})
	}
	want := []string{
		"the beginning of the round to the end of pass 3 of 6: 12",
		"the end of pass 3 of 6 to the end of pass 4 of 6: 4",
		"the end of pass 4 of 6 to the end of pass 5 of 6: 3",
		"the end of pass 4 of 6 to the end of “sc in next 2 sts” in pass 5 of 6: 2",
	}
	if strings.Join(said, "\n") != strings.Join(want, "\n") {
		t.Errorf("said\n%s", strings.Join(said, "\n"))
	}
	h, _ := s.Hunt()
	slip, _ := h.Slip()
	if slip.Where != "“2 sc in next st” in pass 5 of 6" || slip.Number != 4 || slip.From != 18 || slip.To != 20 {
		t.Errorf("found %+v", slip)
	}
	if !strings.Contains(slip.Mend, "It holds 1 stitch where it should hold 2. Unravel to stitch 19") {
		t.Errorf("mend %q", slip.Mend)
	}
	if len(slip.Reasons) == 0 || slip.Reasons[0].Cause != counter.MissedIncrease {
		t.Errorf("reasons %+v", slip.Reasons)
	}
	// Going on with the work ends the hunt, and taking that back brings it again.
	s = apply(t, s, counter.Event{Kind: counter.Finish, N: 23})
	if _, ok := s.Hunt(); ok {
		t.Error("the hunt goes on in the next row")
	}
	s = apply(t, s, counter.Event{Kind: counter.Back})
	if h, ok := s.Hunt(); !ok || h.Asked() != len(want) {
		t.Error("the hunt does not come back")
	}
	s = apply(t, s, counter.Event{Kind: counter.Leave})
	if _, ok := s.Hunt(); ok {
		t.Error("the hunt was not left")
	}
}

func TestHuntThatCannotBe(t *testing.T) {
	s := walk(t, planOf(piece(1, 6, unknown)), "")
	for _, c := range []struct {
		event counter.Event
		err   error
	}{
		{counter.Event{Kind: counter.Answer, N: 3}, counter.ErrNoHunt},
		{counter.Event{Kind: counter.Leave}, counter.ErrNoHunt},
		{counter.Event{Kind: counter.Seek, Row: 0, N: counter.NotCounted}, counter.ErrNoStitches},
		{counter.Event{Kind: counter.Seek, Row: 1, N: 4}, counter.ErrNoCount},
		{counter.Event{Kind: counter.Seek, Row: 2, N: 4}, counter.ErrNoSuchRow},
		{counter.Event{Kind: counter.Seek, Row: 0, N: -2}, counter.ErrBadCount},
	} {
		if _, err := s.Apply(c.event); !errors.Is(err, c.err) {
			t.Errorf("%+v: %v, want %v", c.event, err, c.err)
		}
	}
	// A count that agrees leaves nothing to look for.
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 4}, counter.Event{Kind: counter.Seek, N: 4})
	if h, ok := s.Hunt(); !ok || !h.Agrees() {
		t.Error("4 of 4 do not agree")
	}
	if _, err := s.Apply(counter.Event{Kind: counter.Answer, N: 3}); !errors.Is(err, counter.ErrNoHunt) {
		t.Errorf("an answer after the end: %v", err)
	}
}

// A repeat of a million passes costs no more than one of ten.
func TestHuntInAVastRow(t *testing.T) {
	s := walk(t, read("Net\n\nUS terms\n\nRow 1: Ch 2000001, sc in 2nd ch from hook and in each ch across. (2000000)\nRow 2: Ch 1, turn, (sc in next st, 2 sc in next st) 1000000 times. (3000000)\n"), "finish2000000 tap3000000")
	s = apply(t, s, counter.Event{Kind: counter.Seek, Row: 1, N: 2999999})
	const at = 1_234_566
	for {
		h, _ := s.Hunt()
		q, more := h.Question()
		if !more {
			break
		}
		n := q.Expect
		if q.From.Stitch <= at && q.To.Stitch > at {
			n--
		}
		s = apply(t, s, counter.Event{Kind: counter.Answer, N: n})
	}
	h, _ := s.Hunt()
	if slip, ok := h.Slip(); !ok || slip.From > at || slip.To <= at || h.Asked() > 22 {
		t.Errorf("after %d questions %+v", h.Asked(), slip)
	}
}

// A hunt goes out of its way for what is plain to see: a marker or a change of
// colour near the middle rather than a spot that must be counted out.
func TestHuntPrefersWhatIsPlain(t *testing.T) {
	plain := "Mat\n\nUS terms\n\nCh 61.\nRow 1: Sc in 2nd ch from hook and in each ch across. (60)\nRow 2: Ch 1, turn, sc in each st across. (60)\n"
	colour := strings.Replace(plain, "Row 2: Ch 1, turn, sc in each st across.", "Row 2: Ch 1, turn, sc in next 28 sts, change to B, sc in next 32 sts.", 1)
	for _, c := range []struct {
		name, text string
		marker     int64
		want       string
		kind       counter.LandmarkKind
	}{
		{"nothing to see", plain, -1, "30 places of the row below, from where “sc in each st across” begins", counter.AlongBelow},
		{"a marker", plain, 27, "the stitch with the marker “side”", counter.AtMarker},
		{"a marker at the very edge", plain, 1, "30 places of the row below, from where “sc in each st across” begins", counter.AlongBelow},
		{"a change of colour", colour, -1, "the change of colour", counter.AtColour},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := walk(t, read(c.text), "finish60 tap60")
			if c.marker >= 0 {
				s = apply(t, s, counter.Event{Kind: counter.Mark, Row: 1, N: c.marker, Text: "side"})
			}
			s = apply(t, s, counter.Event{Kind: counter.Seek, Row: 1, N: 59})
			h, _ := s.Hunt()
			q, ok := h.Question()
			if !ok {
				t.Fatal("no question")
			}
			at := q.To
			if q.From.Stitch > 0 {
				at = q.From
			}
			if at.Words != c.want || at.Kind != c.kind {
				t.Errorf("the landmark is %+v", at)
			}
		})
	}
}

// The counts given on the way narrow the hunt before its first question.
func TestHuntUsesWhatIsKnown(t *testing.T) {
	text := "Mat\n\nUS terms\n\nCh 61.\nRow 1: Sc in 2nd ch from hook and in each ch across. (60)\n"
	known := func(script string, checks ...counter.Event) int64 {
		s := apply(t, walk(t, read(text), script), checks...)
		s = apply(t, s, counter.Event{Kind: counter.Tap, N: 60 - s.Stitch()}, counter.Event{Kind: counter.Seek, N: 59})
		h, _ := s.Hunt()
		return h.Groups()
	}
	if n := known("tap40"); n != 7 {
		t.Errorf("%d groups with nothing known", n)
	}
	if n := known("tap40", counter.Event{Kind: counter.Check, N: 40}); n != 3 {
		t.Errorf("%d groups where the first 40 agree", n)
	}
	if n := known("tap20", counter.Event{Kind: counter.Check, N: 19}); n != 3 {
		t.Errorf("%d groups where the first 20 are short", n)
	}
}
