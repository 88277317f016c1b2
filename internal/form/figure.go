package form

import (
	"math"

	"meltwright/internal/quantity"
)

// Formula is a published formula for the surface of a human body: Factor ×
// height^Height × mass^Mass, in m² from centimetres and kilograms.
type Formula struct {
	Name                 string
	Source               string
	Factor, Height, Mass float64
}

// Formulas are the four that the program offers; the first is the usual one.
// Mosteller's √(height × mass ÷ 3600) is written out as a sixtieth of both roots.
var Formulas = []Formula{
	{"Du Bois", "Du Bois & Du Bois, Arch Intern Med 17:863–871, 1916", 0.007184, 0.725, 0.425},
	{"Mosteller", "Mosteller, N Engl J Med 317:1098, 1987", 1.0 / 60, 0.5, 0.5},
	{"Haycock", "Haycock et al., J Pediatr 93:62–66, 1978", 0.024265, 0.3964, 0.5378},
	{"Gehan–George", "Gehan & George, Cancer Chemother Rep 54, 1970, from memory", 0.0235, 0.42246, 0.51456},
}

// Area is the surface of a nude body of height h and mass w.
func (f Formula) Area(h quantity.Length, w quantity.Mass) quantity.Area {
	return quantity.Area(f.Factor * math.Pow(float64(h)*100, f.Height) * math.Pow(float64(w), f.Mass))
}

// FormulaNamed finds a formula by its name.
func FormulaNamed(name string) (Formula, bool) {
	for _, f := range Formulas {
		if f.Name == name {
			return f, true
		}
	}
	return Formula{}, false
}

// Limb is a part of a standing figure that may cast solid.
type Limb struct {
	Name  string
	Thick quantity.Length // on a body of 1.75 m; from memory
}

// Limbs are the thin parts of a figure, thinnest first.
var Limbs = []Limb{{"fingers", 0.016}, {"wrists", 0.055}, {"ankles", 0.070}, {"forearms", 0.080}, {"neck", 0.120}}

// SolidLimbs are the parts of a figure of height h that are thinner than two
// walls of thickness t and so cast solid.
func SolidLimbs(h, t quantity.Length) []string {
	var names []string
	for _, l := range Limbs {
		if l.Thick*h/1.75 < 2*t {
			names = append(names, l.Name)
		}
	}
	return names
}

// Share is a part of the body with its share of the surface.
type Share struct {
	Name string
	Part float64
}

// Nines is the rule of nines: shares of a figure's surface by part (Wallace,
// 1951, from memory). The last hundredth is left out of the trade's use.
var Nines = []Share{
	{"head and neck", 0.09},
	{"left arm", 0.09},
	{"right arm", 0.09},
	{"front of the trunk", 0.18},
	{"back of the trunk", 0.18},
	{"left leg", 0.18},
	{"right leg", 0.18},
}

// Meeh is the surface of an animal of mass m: k × m^⅔, k in m² for kg^⅔.
func Meeh(k float64, m quantity.Mass) quantity.Area {
	return quantity.Area(k * math.Cbrt(float64(m)*float64(m)))
}
