package arch

import (
	"fmt"
	"go/ast"
	"slices"
	"strings"
)

// strayArrows says, a sentence each, which imports of a package the plan does not have.
func strayArrows(s source) []string {
	r := findRoom(s.path)
	if r == nil {
		return list(s.path + " is not in the plan; give it a row in internal/arch/rooms.go, or put its code into a room that is there")
	}
	var wrong []string
	for _, path := range s.imports {
		if !mayImport(*r, path) {
			wrong = append(wrong, fmt.Sprintf("%s imports %s, and its row in internal/arch/rooms.go does not let it", s.path, path))
		}
	}
	for _, path := range s.testsImports {
		if !mayImport(*r, path) && !testsMayImport(*r, path) {
			wrong = append(wrong, fmt.Sprintf("the tests of %s import %s, and its row in internal/arch/rooms.go does not let them", s.path, path))
		}
	}
	return wrong
}

func findRoom(path string) *room {
	for _, r := range rooms {
		if r.path == path {
			return &r
		}
	}
	return nil
}

func mayImport(r room, path string) bool {
	if inner, ours := strings.CutPrefix(path, module+"/"); ours {
		return slices.Contains(r.may, inner)
	}
	return isStandard(path) || mayUse(r, path)
}

func testsMayImport(r room, path string) bool {
	if inner, ours := strings.CutPrefix(path, module+"/"); ours {
		return inner == r.path || slices.Contains(r.tests, inner) || slices.Contains(testRooms, inner)
	}
	return slices.ContainsFunc(testLibraries, func(l string) bool { return within(path, l) })
}

// mayUse is true if the library that the import belongs to lets the room in.
func mayUse(r room, path string) bool {
	var owner library
	for _, l := range libraries {
		if within(path, l.path) && len(l.path) > len(owner.path) {
			owner = l
		}
	}
	return slices.Contains(owner.used, r.path)
}

// within is true if an import is the folder or below it.
func within(path, folder string) bool { return path == folder || strings.HasPrefix(path, folder+"/") }

// isStandard is true for Go's own packages: their first word has no dot.
func isStandard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	return !strings.Contains(first, ".")
}

// outward are the packages of Go's own that reach a disk, a network, a
// database, another program or chance without a seed.
var outward = list("os", "net", "database", "syscall", "log", "math/rand", "crypto/rand")

// impurities says what a pure room uses that would make its answers differ.
func impurities(s source) []string {
	r := findRoom(s.path)
	if r == nil || !r.pure {
		return nil
	}
	var wrong []string
	for _, path := range s.imports {
		if path != "math/rand/v2" && slices.ContainsFunc(outward, func(o string) bool { return within(path, o) }) {
			wrong = append(wrong, fmt.Sprintf("%s is pure in the plan, and imports %s", s.path, path))
		}
	}
	for _, file := range s.files {
		ast.Inspect(file, func(n ast.Node) bool {
			if call := asksTheClock(n); call != "" {
				wrong = append(wrong, fmt.Sprintf("%s is pure in the plan, and calls %s; let it be given the time", s.path, call))
			}
			return true
		})
	}
	return wrong
}

// asksTheClock names the call if n is one of those of package time that look
// at the clock or wait for it.
func asksTheClock(n ast.Node) string {
	call, ok := n.(*ast.SelectorExpr)
	if !ok {
		return ""
	}
	name, ok := call.X.(*ast.Ident)
	if !ok || name.Name != "time" || !slices.Contains(list("Now", "Since", "Until", "After", "Tick", "Sleep"), call.Sel.Name) {
		return ""
	}
	return "time." + call.Sel.Name
}
