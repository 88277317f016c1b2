package mesh

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"unicode"

	"meltwright/internal/fault"
)

// ReadFile reads the scan at path; see Read. A glTF file may keep its points
// in other files of the same folder, which are read too.
func ReadFile(ctx context.Context, path string, progress func(done float64)) (*Mesh, Report, error) {
	name := filepath.Base(path)
	in := &input{name: name}
	refuse := func(problem string) (*Mesh, Report, error) {
		return nil, Report{Name: name}, in.fault(problem, "give the path of a scan that can be opened")
	}
	// A pipe would wait for ever to be opened: look first.
	about, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return refuse("does not exist")
	case err != nil:
		return refuse(fmt.Sprintf("cannot be opened (%v)", plainCause(err)))
	case !about.Mode().IsRegular():
		return refuse("is not a file")
	}
	file, err := os.Open(path)
	if err != nil {
		return refuse(fmt.Sprintf("cannot be opened (%v)", plainCause(err)))
	}
	defer file.Close()
	in.src, in.size = file, about.Size()
	in.beside = func(name string) (io.ReaderAt, int64, func(), error) {
		return openBeside(filepath.Dir(path), name)
	}
	return in.read(ctx, progress)
}

// plainCause is why the system cannot open a file, without the words of the
// call that failed.
func plainCause(err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// openBeside opens a file below a folder, and none elsewhere.
func openBeside(folder, name string) (file io.ReaderAt, size int64, shut func(), err error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, 0, nil, err
	}
	defer root.Close()
	about, err := root.Stat(name)
	if err != nil {
		return nil, 0, nil, err
	}
	if !about.Mode().IsRegular() {
		return nil, 0, nil, errors.New("it is not a file")
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, 0, nil, err
	}
	return f, about.Size(), func() { f.Close() }, nil
}

// Read reads a scan: STL, OBJ, PLY, 3MF, glTF or GLB, told apart by what is in
// it, whatever name it has. Points that are the same are made one.
//
// A damaged file gives whatever is sound in it, and the report says in
// sentences what is not. The error is a fault.Fault, and the mesh nil, only if
// no triangle could be had; it is the context's if that ends first. Memory is
// asked for as data comes, never by a number in the file.
//
// progress, which may be nil, is told the share of the work done, from 0 to 1,
// by one goroutine at a time.
func Read(ctx context.Context, src io.ReaderAt, size int64, name string, progress func(done float64)) (*Mesh, Report, error) {
	in := &input{src: src, size: size, name: name}
	return in.read(ctx, progress)
}

func (in *input) read(ctx context.Context, progress func(float64)) (*Mesh, Report, error) {
	in.meter = &meter{ctx: ctx, tell: progress, total: in.size}
	report := Report{Name: in.name}
	read, format, err := in.sniff()
	if err != nil {
		return nil, report, err
	}
	report.Format = format
	b := newBuilder(in, &report)
	err = in.excuse(read(in, b))
	if stop := ctx.Err(); stop != nil {
		return nil, report, stop
	}
	if len(b.triangles) == 0 {
		return nil, report, in.nothing(&report, err)
	}
	if err != nil {
		report.harm("The file %s.", fault.All(err)[0].Problem)
	}
	m := b.mesh()
	report.conclude()
	if progress != nil {
		progress(1)
	}
	return m, report, nil
}

// nothing is why there is no mesh: the failure itself if there was one, else
// what the report knows of what was left out.
func (in *input) nothing(report *Report, err error) error {
	if err != nil {
		return err
	}
	problem, remedy := "holds no triangles", "export the scan as a surface of triangles, not as points, lines or curves"
	if report.Found > 0 {
		report.conclude()
		problem, remedy = fmt.Sprintf("holds %s, and none can be used", many(report.Found, "triangle")), "export the scan again"
	}
	for _, note := range report.Notes {
		problem += "; " + lowerFirst(note)
	}
	return in.fault(problem, remedy)
}

// lowerFirst makes a sentence a clause.
func lowerFirst(sentence string) string {
	letters := []rune(sentence)
	if len(letters) == 0 {
		return ""
	}
	letters[0] = unicode.ToLower(letters[0])
	if letters[len(letters)-1] == '.' {
		letters = letters[:len(letters)-1]
	}
	return string(letters)
}
