package main

import (
	"strings"
	"testing"
)

func TestDecode(t *testing.T) {
	for _, test := range []struct{ name, data, text, wrong string }{
		{"ascii", "Row 1", "Row 1", ""},
		{"utf-8", "½ row", "½ row", ""},
		{"utf-8 with its mark", "\xef\xbb\xbfRow 1", "Row 1", ""},
		{"utf-16, low byte first", "\xff\xfeR\x00\xbd\x00", "R½", ""},
		{"utf-16, high byte first", "\xfe\xff\x00R\x00\xbd", "R½", ""},
		{"utf-16 cut off", "\xff\xfeR\x00\xbd", "R\ufffd", ""},
		{"windows-1252", "\x93Fin\x94 \xbd row \x96 6 sts", "“Fin” ½ row – 6 sts", ""},
		{"a stray byte", "½ \xff row", "½ \xff row", ""},
		{"empty", "", "", "is empty"},
		{"blank", "\xef\xbb\xbf \n", "", "is empty"},
		{"zeros", "Row\x00", "", "zero bytes"},
		{"a picture", "\x89PNG\r\n", "", "is a picture"},
		{"as large as may be", strings.Repeat("s", sourceLimit), strings.Repeat("s", sourceLimit), ""},
		{"too large", strings.Repeat("s", sourceLimit+1), "", "is over 4 MB"},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, err := decode([]byte(test.data))
			switch {
			case err == nil && test.wrong != "":
				t.Errorf("decoded to %q, want an error", got)
			case err != nil && (test.wrong == "" || !strings.Contains(err.Error(), test.wrong)):
				t.Errorf("error %q, want %q in it", err, test.wrong)
			case got != test.text:
				t.Errorf("got %.40q, want %.40q", got, test.text)
			}
		})
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte("Row 1: \xff"))
	f.Add([]byte("\xff\xfeR\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		text, err := decode(data)
		if err == nil && (strings.TrimSpace(text) == "" || strings.ContainsRune(text, 0)) {
			t.Errorf("%q decoded to %q", data, text)
		}
	})
}
