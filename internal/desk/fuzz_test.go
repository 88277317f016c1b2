package desk_test

import (
	"bytes"
	"errors"
	"testing"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
)

// Whatever a commission file holds, there is a sentence, or there is a commission
// that can be laid on the desk, and written as a file that can be read again.
func FuzzCommissionFile(f *testing.F) {
	var b bytes.Buffer
	q := desk.Demo()[1]
	if err := desk.EncodeCommission(&b, q.Commission, q.Words); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte(`{"meltwright": "commission 1", "pieces": [{"name": "x", "inputs": {"form.wall": "5 mm", "form.height": "1e309"}, "solids": [{"shape": "sphere", "diameter": "-0"}]}]}`))
	f.Add([]byte(`{"meltwright": "commission 1", "options": [{"pieces": [{}, null]}], "extras": [{"stage": "wax", "quantity": "∞", "rate": "NaN"}], "words": {"start": "31 February 2026"}}`))
	f.Add([]byte(`{"meltwright": "commission 2"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, words, err := desk.DecodeCommission(bytes.NewReader(data))
		if err != nil {
			for _, x := range fault.All(err) {
				if x.Field == "" || x.Problem == "" {
					t.Fatalf("%#v", err)
				}
			}
			return
		}
		d, err := desk.New(t.Context(), desk.NoStore{}, nil, time.Now)
		if err != nil {
			t.Fatal(err)
		}
		s := d.Lay(c)
		for part, text := range words {
			s.SetWords(part, text)
		}
		var again bytes.Buffer
		if err := desk.EncodeCommission(&again, s.Commission(), s.Quote().Words); err != nil {
			t.Fatal(err)
		}
		if _, _, err := desk.DecodeCommission(&again); err != nil {
			t.Fatal(err)
		}
	})
}

// Whatever stands where a date belongs is a day of this age, or a sentence.
func FuzzReadDate(f *testing.F) {
	for _, s := range []string{"2026-03-02", "2 March 2026", "March 2, 2026", "31 February 2026", "0000-00-00", "٢ March 2026", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		day, err := desk.ReadDate("Deadline", text)
		if err == nil && (day.Year() < 1970 || day.Year() > 2200) {
			t.Fatal(day)
		}
		var x fault.Fault
		if err != nil && (!errors.As(err, &x) || x.Remedy == "") {
			t.Fatalf("%#v", err)
		}
	})
}
