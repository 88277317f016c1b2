package parcel

import (
	"bytes"
	"errors"
	"io"
	"testing"

	"meltwright/internal/fault"
)

// Whatever comes, there is a sentence or there are contents, and contents can be
// sent on.
func FuzzRead(f *testing.F) {
	f.Add([]byte("PK\x03\x04"))
	f.Add(packed(f, ferryman(f), everything))
	f.Add(packed(f, Contents{}, Options{}))
	f.Add(sound(f).with(f, "commission.json", []byte(`{"mood": [1e3, {"a": null}], "pieces": null}`)).bytes(f))
	f.Add(forged{{name: markEntry, data: []byte("parcel 2")}}.bytes(f))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := Read(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			var x fault.Fault
			if !errors.As(err, &x) || x.Field == "" || x.Problem == "" || x.Remedy == "" {
				t.Fatalf("%#v", err)
			}
			return
		}
		opened(t, &c)
		if err := Write(io.Discard, c, everything); err != nil {
			t.Fatal(err)
		}
	})
}

// The same for JSON alone, which mutation gets further into.
func FuzzCommission(f *testing.F) {
	f.Add([]byte(`{"title": "x", "pieces": [{"inputs": {"form.wall": "5 mm"}, "solids": [{"shape": "box"}], "scan": null}], "options": [{"pieces": [{}]}]}`))
	f.Add([]byte(`{"pieces": [{"scan": {"box_m": [1, 1, 2], "plan": {"sections": [{}]}, "front": {}}}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		x := sound(t).with(t, "commission.json", data).bytes(t)
		c, err := Read(bytes.NewReader(x), int64(len(x)))
		if err != nil {
			return
		}
		if err := Write(io.Discard, c, Options{}); err != nil {
			t.Fatal(err)
		}
	})
}
