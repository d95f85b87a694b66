package timecode

import (
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func rate(t testing.TB, name string) Rate {
	t.Helper()
	r, err := ParseRate(name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Published values of drop-frame counting: 17,982 frames in ten minutes,
// 1,798 in a minute that drops, 107,892 in an hour, 2,589,408 in a day; they
// stand in common accounts of SMPTE ST 12-1. Those of 59.94 are their doubles.
func TestPublished(t *testing.T) {
	for _, c := range []struct {
		rate  string
		frame int64
		code  string
	}{
		{"29.97df", 0, "00:00:00;00"},
		{"29.97df", 1799, "00:00:59;29"},
		{"29.97df", 1800, "00:01:00;02"},
		{"29.97df", 3597, "00:01:59;29"},
		{"29.97df", 3598, "00:02:00;02"},
		{"29.97df", 17981, "00:09:59;29"},
		{"29.97df", 17982, "00:10:00;00"},
		{"29.97df", 19781, "00:10:59;29"},
		{"29.97df", 19782, "00:11:00;02"},
		{"29.97df", 107891, "00:59:59;29"},
		{"29.97df", 107892, "01:00:00;00"},
		{"29.97df", 2589407, "23:59:59;29"},
		{"59.94df", 3599, "00:00:59;59"},
		{"59.94df", 3600, "00:01:00;04"},
		{"59.94df", 35964, "00:10:00;00"},
		{"59.94df", 215784, "01:00:00;00"},
		{"29.97ndf", 1800, "00:01:00:00"},
		{"29.97ndf", 108000, "01:00:00:00"},
		{"59.94ndf", 216000, "01:00:00:00"},
		{"23.976", 86400, "01:00:00:00"},
		{"24", 86399, "00:59:59:23"},
		{"25", 90000, "01:00:00:00"},
		{"30", 107892, "00:59:56:12"},
		{"50", 179999, "00:59:59:49"},
		{"60", 216000, "01:00:00:00"},
	} {
		r := rate(t, c.rate)
		if got := r.Format(c.frame); got != c.code {
			t.Errorf("%s: frame %d is %s, want %s", r, c.frame, got, c.code)
		}
		if got, err := r.Parse(c.code); got != c.frame || err != nil {
			t.Errorf("%s: %s is frame %d (%v), want %d", r, c.code, got, err, c.frame)
		}
	}
	if day := rate(t, "29.97df").Day(); day != 24*107892 {
		t.Errorf("a day at 29.97 drop has %d frames", day)
	}
	if got := rate(t, "25").Format(rate(t, "25").Day() + 1); got != "00:00:00:01" {
		t.Errorf("past midnight it is %s", got)
	}
	if got := rate(t, "29.97df").Format(-1); got != "23:59:59;29" {
		t.Errorf("before midnight it is %s", got)
	}
}

// At every rate the numbers rise one by one, as on a counter that skips what it
// is told to skip. Dropping repeats every ten minutes: the first, a middle and
// the last ten of the day are gone through frame by frame.
func TestCounter(t *testing.T) {
	for _, r := range Rates() {
		for _, tens := range []int64{0, 71, 143} {
			var h, m, s, f int64 = tens / 6, tens % 6 * 10, 0, 0
			first := tens * r.Day() / 144
			for frame := first; frame < first+r.Day()/144; frame++ {
				mark := ":"
				if r.Drops() {
					mark = ";"
				}
				want := fmt.Sprintf("%02d:%02d:%02d%s%02d", h, m, s, mark, f)
				if got := r.Format(frame); got != want {
					t.Fatalf("%s: frame %d is %s, want %s", r, frame, got, want)
				}
				if got, err := r.Parse(want); got != frame || err != nil {
					t.Fatalf("%s: %s is frame %d (%v), want %d", r, want, got, err, frame)
				}
				if f++; f == r.base {
					f, s = 0, s+1
				}
				if s == 60 {
					if s, m = 0, m+1; m%10 != 0 {
						f = r.drop
					}
				}
			}
		}
	}
}

// Every frame of a whole day at 29.97 drop, there and back.
func TestWholeDay(t *testing.T) {
	r := rate(t, "29.97df")
	for frame := range r.Day() {
		if got, err := r.Parse(r.Format(frame)); got != frame || err != nil {
			t.Fatalf("frame %d is %s, which is frame %d (%v)", frame, r.Format(frame), got, err)
		}
	}
}

// Any frame of a day, at any rate, there and back; and no two have one number.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(Rates()).Draw(t, "rate")
		frame := rapid.Int64Range(0, r.Day()-1).Draw(t, "frame")
		if got, err := r.Parse(r.Format(frame)); got != frame || err != nil {
			t.Errorf("%s: frame %d is %s, which is frame %d (%v)", r, frame, r.Format(frame), got, err)
		}
		if got := r.Frames(r.Millis(frame)); got != frame {
			t.Errorf("%s: frame %d begins at %d ms, where frame %d does", r, frame, r.Millis(frame), got)
		}
	})
}

// A whole day at drop-frame is 86.4 ms short of a day of the clock at 29.97
// (2,589,408 frames of 1001/30000 s); an hour of non-drop lasts 3603.6 s.
func TestDrift(t *testing.T) {
	for _, c := range []struct {
		rate, code string
		ms         int64
	}{
		{"29.97df", "01:00:00;00", 3_599_996},
		{"29.97ndf", "01:00:00:00", 3_603_600},
		{"23.976", "01:00:00:00", 3_603_600},
		{"59.94df", "01:00:00;00", 3_599_996},
		{"25", "01:00:00:00", 3_600_000},
	} {
		r := rate(t, c.rate)
		frame, err := r.Parse(c.code)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Millis(frame); got != c.ms {
			t.Errorf("%s: %s is %d ms, want %d", r, c.code, got, c.ms)
		}
	}
	df := rate(t, "29.97df")
	if got := df.Millis(df.Day()); got != 86_400_000-86 {
		t.Errorf("a day of drop-frame lasts %d ms", got)
	}
}

func TestFramesBounds(t *testing.T) {
	r := rate(t, "59.94df")
	const huge = 1<<63 - 1
	if r.Frames(-5) != 0 || r.Millis(-5) != 0 {
		t.Error("times below zero are not zero")
	}
	if r.Frames(huge) != r.Frames(MaxMillis) || r.Millis(huge) != r.Millis(MaxFrames) {
		t.Error("huge times are not the longest")
	}
	if got := rate(t, "25").Frames(20); got != 1 {
		t.Errorf("half a frame is rounded to %d", got)
	}
	if r.Format(-huge-1) == "" || r.Format(huge) == "" {
		t.Error("no timecode for a huge frame")
	}
}

func TestParseRate(t *testing.T) {
	for in, want := range map[string]string{
		"23.98": "23.976", " 24000/1001 ": "23.976", "25": "25", "29.97DF": "29.97df", "30000/1001ndf": "29.97ndf",
	} {
		if r, err := ParseRate(in); err != nil || r.String() != want {
			t.Errorf("%q is %v (%v), want %s", in, r, err, want)
		}
	}
	for in, want := range map[string]string{
		"29.97":      "29.97 is counted in two ways: say 29.97df",
		"60000/1001": "59.94 is counted in two ways: say 59.94df",
		"":           `there is no rate ""; there are 23.976, 24, 25, 29.97df, 29.97ndf, 30, 50, 59.94df, 59.94ndf, 60`,
		"25df":       `there is no rate "25df"`, // nothing is dropped there
		"1e9":        `there is no rate "1e9"`,
	} {
		if _, err := ParseRate(in); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %s", in, err, want)
		}
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		rate, in string
		frame    int64
	}{
		{"25", "1:2:3:4", 93079},
		{"29.97df", "01:00:00:00", 107892},
		{"29.97df", "01;00;00;00", 107892},
		{"29.97df", "01:00:00.00", 107892},
		{"29.97df", "01:00:00,00", 107892},
	} {
		if got, err := rate(t, c.rate).Parse(c.in); got != c.frame || err != nil {
			t.Errorf("%s at %s is frame %d (%v), want %d", c.in, c.rate, got, err, c.frame)
		}
	}
	for _, c := range []struct{ rate, in, want string }{
		{"25", "", `"" is no timecode`},
		{"25", "01:02:03", "no timecode"},
		{"25", "01:02:03:", "no timecode"},
		{"25", "01:02:03:04:05", "no timecode"},
		{"25", "001:02:03:04", "no timecode"},
		{"25", "-1:02:03:04", "no timecode"},
		{"25", "01:02:03:0４", "no timecode"},
		{"29.97df", "01:02;03:04", "no timecode"},
		{"25", "01:02:03;04", "and at 25 none are"},
		{"29.97ndf", "01:02:03;04", "and at 29.97ndf none are"},
		{"25", "24:00:00:00", "no time of day"},
		{"25", "00:60:00:00", "no time of day"},
		{"25", "00:00:00:25", "from 00 to 24"},
		{"29.97df", "00:01:00;01", "leaves out"},
		{"59.94df", "00:01:00;03", "leaves out"},
	} {
		if _, err := rate(t, c.rate).Parse(c.in); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q at %s: %v, want %s", c.in, c.rate, err, c.want)
		}
	}
	if _, err := (Rate{}).Parse("00:00:00:00"); err == nil {
		t.Error("no rate parses a timecode")
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"01:02:03:04", "00:01:00;02", "1;2;3;4", "99:99:99:99", "::::", "\x00"} {
		for i := range rates {
			f.Add(i, s)
		}
	}
	f.Fuzz(func(t *testing.T, i int, s string) {
		r := rates[uint(i)%uint(len(rates))]
		frame, err := r.Parse(s)
		if err != nil {
			return
		}
		if frame < 0 || frame >= r.Day() {
			t.Fatalf("%q is frame %d of a day of %d", s, frame, r.Day())
		}
		if again, err := r.Parse(r.Format(frame)); again != frame || err != nil {
			t.Fatalf("%q is frame %d, which is written %s and read as %d (%v)", s, frame, r.Format(frame), again, err)
		}
	})
}

// ffmpeg counts frames on its own: it is given a timecode, writes the frame's
// number into the timecode track of a film, and that number is read back.
func TestAgainstFFmpeg(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("ffmpeg is missing")
		}
		t.Skip("ffmpeg is missing")
	}
	codes := []struct{ rate, code string }{
		{"23.976", "01:00:00:00"},
		{"24", "00:59:59:23"},
		{"25", "10:11:12:13"},
		{"29.97df", "00:01:00;02"},
		{"29.97df", "00:10:00;00"},
		{"29.97df", "01:00:00;00"},
		{"29.97df", "23:59:59;29"},
		{"29.97ndf", "01:00:00:00"},
		{"30", "01:00:00:00"},
		{"50", "00:00:59:49"},
		{"59.94df", "00:01:00;04"},
		{"59.94df", "01:00:00;00"},
		{"59.94ndf", "01:00:00:00"},
		{"60", "01:00:00:59"},
	}
	dir := t.TempDir()
	film := func(i int) string { return filepath.Join(dir, fmt.Sprint(i, ".mov")) }
	track := func(i int) string { return filepath.Join(dir, fmt.Sprint(i, ".frame")) }
	generate, read, write := []string{}, []string{}, []string{}
	for i, c := range codes {
		num, den := rate(t, c.rate).Fraction()
		generate = append(generate, "-f", "lavfi", "-i", fmt.Sprintf("color=s=16x16:r=%d/%d", num, den))
		write = append(write, "-map", fmt.Sprint(i), "-frames:v", "1", "-timecode", c.code, "-c:v", "rawvideo", film(i))
	}
	ffmpeg(t, append(generate, write...)...)
	write = nil
	for i := range codes {
		read = append(read, "-i", film(i))
		write = append(write, "-map", fmt.Sprint(i, ":d"), "-c", "copy", "-f", "data", track(i))
	}
	ffmpeg(t, append(read, write...)...)
	for i, c := range codes {
		frame, err := os.ReadFile(track(i))
		if err != nil || len(frame) < 4 {
			t.Fatalf("%s at %s: the timecode track holds %d bytes (%v)", c.code, c.rate, len(frame), err)
		}
		theirs := int64(binary.BigEndian.Uint32(frame))
		if ours, err := rate(t, c.rate).Parse(c.code); ours != theirs || err != nil {
			t.Errorf("%s at %s: ffmpeg says frame %d, we say %d (%v)", c.code, c.rate, theirs, ours, err)
		}
	}
}

func ffmpeg(t *testing.T, args ...string) {
	t.Helper()
	said, err := exec.Command("ffmpeg", append([]string{"-v", "error", "-nostdin"}, args...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("ffmpeg %s: %v\n%s", strings.Join(args, " "), err, said)
	}
}
