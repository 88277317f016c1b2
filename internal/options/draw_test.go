package options

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/shop"
)

// startingShop is the shop book as the program starts.
func startingShop(t require.TestingT) *shop.Shop {
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	return s
}

// figure is a human figure of 1.75 m and 75 kg to be made at a height.
func figure(height string) estimate.Commission {
	return estimate.Commission{Title: "Figure", Pieces: []estimate.Piece{{Name: "Figure", Inputs: map[string]string{"form.height": height}}}}
}

// group is a figure, an animal and solids, which scale along.
func group() estimate.Commission {
	return estimate.Commission{
		Title:  "Group",
		Inputs: map[string]string{"price.tax": "Ontario", "delivery.distance": "120 km", "price.fee": "a share of the price", "pour.crucible": "Bilge no. 60"},
		Pieces: []estimate.Piece{
			{Name: "Figure", Inputs: map[string]string{"form.dress": "coat and boots", "form.height": "2.19 m", "base.plinth": "block", "base.footing": "by us"}},
			{Name: "Dog", Inputs: map[string]string{"form.known_by": "animal", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m", "form.height": "0.78 m"}},
			{Name: "Bench", Inputs: map[string]string{"form.known_by": "solids", "form.measured_height": "0.45 m", "form.wall": "6 mm"}, Solids: []map[string]string{
				{"shape": "box", "length": "1.6 m", "width": "0.42 m", "height": "0.09 m"},
			}},
		},
	}
}

// steepShops are shop books in which size makes the price jump, up and down: a
// heat that costs more than all that is poured in it, large cranes that come
// cheaper than small ones, large pieces with fewer coats than small ones.
var steepShops = func() (list []*shop.Shop) {
	b := shop.Start()
	const day = "2026-01-05"
	dear := b.With("pour.people", "12", day).With("pour.heat_hours", "6 h", day).With("price.step", "50", day)
	cranes := dear.WithTable(shop.CraneTable, []shop.Row{
		{"name": "Truck", "moment": "0.5", "day": "9000", "source": ""},
		{"name": "City crane", "moment": "2", "day": "700", "source": ""},
		{"name": "Mobile crane", "moment": "900", "day": "2500", "source": ""},
	}, day)
	coats := cranes.With("shell.coarse_middle", "2", day).With("shell.coarse_large", "1", day).With("price.overhead_base", "labour", day).With("price.overhead", "140 %", day)
	for _, b := range []shop.Book{b, dear, cranes, coats} {
		s, err := shop.Read(b)
		if err != nil {
			panic(err)
		}
		list = append(list, s)
	}
	return list
}()

// egg is the scan of an egg of 0.3 m, its wall measured once for all tests.
var egg = sync.OnceValue(func() *mesh.Scan {
	dir, err := os.MkdirTemp("", "egg")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "egg.obj")
	if err := os.WriteFile(path, eggOBJ(24), 0o600); err != nil {
		panic(err)
	}
	opened, err := mesh.OpenScan(context.Background(), path, nil)
	if err != nil {
		panic(err)
	}
	s, err := opened.Stand(context.Background(), mesh.Stance{Unit: mesh.Metre, Up: mesh.ZUp})
	if err == nil {
		err = s.Measure(context.Background(), nil, nil)
	}
	if err != nil {
		panic(err)
	}
	plan, err := s.Wall.Evaluate(context.Background(), nil)
	if err != nil {
		panic(err)
	}
	ladder, err := s.Wall.Ladder(context.Background(), plan)
	if err != nil {
		panic(err)
	}
	return s.Keep(plan, ladder)
})

// eggOBJ is an egg of n rings, pointed end up.
func eggOBJ(n int) []byte {
	var b strings.Builder
	at := func(i, k int) int { return 1 + i*n + (k+n)%n }
	for i := range n + 1 {
		lat := math.Pi * float64(i) / float64(n)
		z, r := 0.15*(1-math.Cos(lat)), 0.11*math.Sin(lat)*(1-0.15*math.Cos(math.Pi-lat))
		for k := range n {
			lon := 2 * math.Pi * float64(k) / float64(n)
			fmt.Fprintf(&b, "v %.6f %.6f %.6f\n", r*math.Cos(lon), r*math.Sin(lon), z)
		}
	}
	for i := range n {
		for k := range n {
			fmt.Fprintf(&b, "f %d %d %d\nf %d %d %d\n", at(i, k), at(i, k+1), at(i+1, k+1), at(i, k), at(i+1, k+1), at(i+1, k))
		}
	}
	return []byte(b.String())
}

// drawShop draws a shop book.
func drawShop(t *rapid.T) *shop.Shop { return rapid.SampledFrom(steepShops).Draw(t, "shop") }

// drawCommission draws a commission of one to three pieces that can be made at
// its own size.
func drawCommission(t *rapid.T) estimate.Commission {
	pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	number := func(name string, low, high float64, form string) string {
		return fmt.Sprintf(form, rapid.Float64Range(low, high).Draw(t, name))
	}
	c := estimate.Commission{Inputs: map[string]string{
		"pour.crucible":    pick("crucible", "Bilge no. 16", "Bilge no. 30", "Bilge no. 60", "Bilge no. 90"),
		"pour.yield":       pick("yield", "90 %", "95 %", "100 %"),
		"price.tax":        pick("tax", "none", "Québec", "Ontario"),
		"price.fee":        pick("fee", "none", "a fixed sum", "a share of cost", "a share of the price"),
		"price.fee_sum":    "4000",
		"price.profit_way": pick("profit", "margin", "markup"),
		"price.budget_is":  pick("budget is", "with tax", "before tax"),
		"delivery.by":      pick("delivery", "delivered and installed", "delivered", "by others"),
		"delivery.reach":   number("reach", 2, 12, "%.1f m"),
	}}
	for i := range rapid.SampledFrom([]int{1, 1, 1, 2, 3}).Draw(t, "pieces") {
		c.Pieces = append(c.Pieces, drawPiece(t, i, pick, number))
	}
	return c
}

func drawPiece(t *rapid.T, i int, pick func(string, ...string) string, number func(string, float64, float64, string) string) estimate.Piece {
	p := estimate.Piece{Name: fmt.Sprintf("Piece %d", i+1), Inputs: map[string]string{
		"form.known_by": pick("way", "human figure", "animal", "typed area", "solids", "scan"),
		"form.wall":     number("wall", 3, 8, "%.1f mm"),
		"form.casts":    pick("casts", "1", "1", "1", "4"),
		"form.alloy":    pick("alloy", "C87300 silicon bronze 95-1-4", "C90500 gunmetal 88-10-0-2"),
		"base.plinth":   pick("plinth", "no plinth", "block"),
		"base.footing":  pick("footing", "none", "by us"),
	}}
	switch p.Inputs["form.known_by"] {
	case "typed area":
		p.Inputs["form.area"] = number("area", 0.3, 3, "%.2f m²")
	case "scan":
		p.Scan = egg()
	case "solids":
		p.Solids = []map[string]string{{"shape": "sphere", "diameter": number("diameter", 0.3, 0.8, "%.2f m")}}
	}
	if rapid.IntRange(0, 4).Draw(t, "typed sections") == 0 {
		p.Inputs["form.sections"] = fmt.Sprint(rapid.IntRange(2, 40).Draw(t, "sections"))
	}
	if i > 0 && rapid.Bool().Draw(t, "stays") {
		p.Inputs["form.in_options"] = "stays as it is"
	}
	p.Inputs["form.height"] = number("height", 0.3, 2.4, "%.3f m")
	return p
}

// mustTry tries heights of a commission, for what the tests compare with.
func mustTry(t testing.TB, c estimate.Commission, s *shop.Shop, beforeTax bool) *finder {
	f, err := newFinder(c, s, beforeTax)
	require.NoError(t, err)
	return f
}
