package arch

import "slices"

// room is one package of the module.
type room struct {
	path string // below the module's path
	// pure rooms give the same answer to the same question: no clock, disk,
	// network, database or unseeded chance is in them.
	pure  bool
	may   []string // the rooms it may import
	tests []string // the rooms that its tests may import besides
}

// Rooms that many may import, by how far the work has come.
var (
	values   = []string{"internal/fault", "internal/quantity", "internal/money", "internal/field"}
	measured = with(values, "internal/mesh", "internal/form")
	priced   = with(measured, "internal/shop", "internal/estimate")
	judged   = with(priced, "internal/lead", "internal/risk", "internal/options")
	quoted   = with(judged, "internal/quote")
	worked   = with(quoted, "internal/drawing", "internal/desk")
	stored   = with(worked, "internal/sqlite", "internal/proposal", "internal/buildinfo", "assets", "templates")
	shown    = with(stored, "internal/ui", "internal/ui/kit", "internal/ui/look")
)

// rooms is the plan, from the bottom up: a room comes after all that it may import.
var rooms = []room{
	{path: "assets"},
	{path: "templates"},
	{path: "internal/buildinfo"},

	{path: "internal/fault", pure: true},
	{path: "internal/quantity", pure: true, may: list("internal/fault")},
	{path: "internal/money", pure: true, may: list("internal/fault", "internal/quantity")}, // reads numbers as quantity does
	{path: "internal/field", pure: true, may: list("internal/fault", "internal/quantity", "internal/money")},
	{path: "internal/mesh", may: list("internal/fault", "internal/quantity")}, // not pure: it opens scans
	{path: "internal/form", pure: true, may: with(values, "internal/mesh")},
	{path: "internal/shop", pure: true, may: measured},
	{path: "internal/estimate", pure: true, may: with(measured, "internal/shop")},
	{path: "internal/lead", pure: true, may: priced},
	{path: "internal/risk", pure: true, may: priced},
	{path: "internal/options", pure: true, may: priced},
	{path: "internal/quote", pure: true, may: judged, tests: list("internal/sqlite")},
	{path: "internal/drawing", pure: true, may: list("internal/quantity", "internal/money", "assets")},

	{path: "internal/sqlite", may: with(quoted, "internal/buildinfo")},
	{path: "internal/proposal", may: with(quoted, "internal/drawing", "internal/buildinfo", "assets", "templates")},
	{path: "internal/desk", may: with(quoted, "internal/drawing", "internal/buildinfo"),
		tests: list("internal/sqlite", "internal/proposal")}, // the program hands these in

	{path: "internal/ui/look", may: list("assets")},
	{path: "internal/ui/kit", may: with(quoted, "internal/drawing", "internal/ui/look", "assets")},
	{path: "internal/ui", may: with(worked, "internal/ui/kit", "internal/ui/look", "internal/buildinfo", "assets"),
		tests: list("internal/sqlite", "internal/proposal")},

	{path: "cmd/meltwright", may: shown},
	{path: "cmd/meltwright-cli", may: stored},
	{path: "cmd/task"},

	{path: "internal/arch"},
}

// library is a library from outside and the rooms that may use it. Of two that
// fit an import, the longer path is meant.
type library struct {
	path string
	used []string
}

// libraries are all that the program is made of besides Go's own.
var libraries = []library{
	{"github.com/shopspring/decimal", list("internal/money")},
	{"github.com/bojanz/currency", list("internal/money")},
	{"gonum.org/v1/gonum", list("internal/risk")},
	{"modernc.org/sqlite", list("internal/sqlite")},
	{"github.com/jung-kurt/gofpdf", list("internal/proposal")},
	{"github.com/xuri/excelize/v2", list("internal/proposal")},
	{"golang.org/x/image", list("internal/drawing", "internal/proposal", "internal/ui/kit")},
	{"github.com/srwiley/rasterx", list("internal/drawing", "internal/ui/kit")},
	{"fyne.io/fyne/v2", list("internal/ui/look", "internal/ui/kit", "internal/ui", "cmd/meltwright")},
	{"fyne.io/fyne/v2/app", list("cmd/meltwright")}, // brings the real window, and cgo with it
}

// testLibraries may be used by every room's tests, and by nothing else.
var testLibraries = list(
	"github.com/stretchr/testify",
	"github.com/rogpeppe/go-internal",
	"pgregory.net/rapid",
)

// topLevel is what the repository's first level holds besides dotfiles.
var topLevel = list("cmd", "internal", "assets", "templates", "testdata",
	"go.mod", "go.sum", "FyneApp.toml", "README.md", "DEVELOPERS.md")

func list(names ...string) []string { return names }

// with is some rooms and some more.
func with(some []string, more ...string) []string { return append(slices.Clone(some), more...) }
