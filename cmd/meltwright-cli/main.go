// Command meltwright-cli does Meltwright's work without a window: for scripts,
// for machines without a display, and for whoever prefers a terminal.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"meltwright/internal/buildinfo"
	"meltwright/internal/fault"
)

// command is one thing the program does.
type command struct {
	name, args, does string
	run              func(ctx context.Context, out io.Writer, args []string) error
}

var commands []command

func init() {
	commands = []command{
		{"example", "[--db FILE]", "print a commission file, everything it may hold explained", runExample},
		{"estimate", "[--db FILE] [--json] FILE", "estimate a commission file", runEstimate},
		{"scan", "[--unit mm] [--up z] [--height 1.8m] [--wall 5mm] [--alloy C87300] [--open-foot] [--json] FILE", "measure a scan: surface, metal, sections", runScan},
		{"options", "[--heights A,B] [--budget SUM] [--before-tax] [--start DATE] [--db FILE] [--json] FILE", "compare heights; find the largest within a budget", runOptions},
		{"range", "[--trials N] [--seed S] [--db FILE] [--json] FILE", "draw how wrong the price may be, and what drives it", runRange},
		{"lead", "[--start DATE] [--by DATE] [--ics OUT] [--db FILE] [--json] FILE", "schedule the work on the shop's calendar", runLead},
		{"proposal", "[--language en|fr|es] [--paper a4|letter] [--start DATE] [--logo FILE] [--picture FILE]... [--db FILE] FILE OUT.pdf", "write the proposal of a commission file", runProposal},
		{"costsheet", "[--paper a4|letter] [--db FILE] FILE OUT.pdf|OUT.xlsx", "write the shop's own cost sheet", runCostSheet},
		{"orderlist", "[--language en|fr|es] [--paper a4|letter] [--db FILE] FILE OUT.pdf|OUT.csv", "write what to order, by supplier and in whole packs", runOrderList},
		{"traveller", "[--language en|fr|es] [--paper a4|letter] [--db FILE] FILE OUT.pdf", "write a page for each section, with steps and coats to tick", runTraveller},
		{"lines", "[--db FILE] FILE OUT.csv", "write every line of the estimate as a table", runLines},
		{"wording", "[FOLDER]", "write the proposal's wording out, to change it: papers take it from your own folder", runWording},
		{"list", "[--db FILE] [--bin] [--state draft] [--by price] [WORDS]", "list the quotes in the store: of one state, by number, client, price or deadline", runList},
		{"show", "[--db FILE] [--json] N", "estimate a quote of the store, by its number as “list” prints it, such as 2026-001", runShow},
		{"export", "[--db FILE] N", "print a quote of the store as a commission file", runExport},
		{"import", "[--db FILE] FILE", "keep a commission file as a new quote", runImport},
		{"send", "[--db FILE] [--with-book] [--with-margins] N OUT [PICTURE|SCAN]...", "pack a quote into one file for somebody else", runSend},
		{"receive", "[--db FILE] [--into FOLDER] FILE", "keep what somebody else has sent as a new quote", runReceive},
		{"shop", "[--db FILE] [set KEY VALUE]", "print the shop book, or change one value of it", runShop},
		{"backup", "[--db FILE] COPY | --list", "copy the store to a file, or list its copies", runBackup},
		{"restore", "[--db FILE] COPY", "put a copy in the place of the store", runRestore},
		{"check", "[--db FILE]", "read the whole store and say what is wrong", runCheck},
		{"version", "", "print the version", runVersion},
	}
}

func main() {
	os.Exit(run(os.Stdout, os.Stderr, os.Args[1:]))
}

// run does one command: 0 where it did, 1 where it could not, or did not
// understand what to do, and said so on errs.
func run(out, errs io.Writer, args []string) (code int) {
	defer func() {
		if x := recover(); x != nil {
			fmt.Fprintf(errs, "meltwright-cli: something went wrong inside: %v. Nothing was changed; please report it with the file you gave.\n", x)
			code = 1
		}
	}()
	if len(args) == 0 || asksHelp(args[0]) {
		return help(out, errs, args)
	}
	c, known := commandNamed(args[0])
	if !known {
		return unknownCommand(errs, args[0])
	}
	if slices.ContainsFunc(args[1:], isHelpFlag) {
		c.usage(out)
		return 0
	}
	err := c.run(withWarnings(context.Background(), errs), out, args[1:])
	if err == nil {
		return 0
	}
	if u, ok := err.(usageError); ok {
		fmt.Fprintf(errs, "meltwright-cli %s: %s\n", c.name, u)
		c.usage(errs)
		return 1
	}
	for _, f := range fault.All(err) {
		fmt.Fprintln(errs, f.Error())
	}
	return 1
}

func commandNamed(name string) (command, bool) {
	at := slices.IndexFunc(commands, func(c command) bool { return c.name == name })
	if at < 0 {
		return command{}, false
	}
	return commands[at], true
}

func isHelpFlag(arg string) bool { return arg == "--help" || arg == "-h" }

func asksHelp(arg string) bool { return arg == "help" || isHelpFlag(arg) }

// help explains every command, or the one that is named.
func help(out, errs io.Writer, args []string) int {
	if len(args) < 2 {
		usage(out)
		return 0
	}
	c, known := commandNamed(args[1])
	if !known {
		return unknownCommand(errs, args[1])
	}
	c.usage(out)
	return 0
}

func unknownCommand(errs io.Writer, name string) int {
	fmt.Fprintf(errs, "meltwright-cli: there is no command “%s”; these are\n\n", name)
	usage(errs)
	return 1
}

// usageError is a command line that a command cannot take.
type usageError string

// Error is what the command line has wrong.
func (u usageError) Error() string { return string(u) }

// usage explains one command.
func (c command) usage(w io.Writer) {
	fmt.Fprintf(w, "use: meltwright-cli %s\n     to %s\n", strings.TrimSpace(c.name+" "+c.args), c.does)
}

// usage explains every command.
func usage(w io.Writer) {
	fmt.Fprintf(w, "%s %s, without a window\n\n", buildinfo.Name, buildinfo.Version)
	for _, c := range commands {
		fmt.Fprintf(w, "  meltwright-cli %s\n        %s\n", strings.TrimSpace(c.name+" "+c.args), c.does)
	}
	fmt.Fprintln(w, `
FILE is a commission file, or - for standard input; “meltwright-cli example” prints one.
--db names the store; without it, commands on kept quotes use the window's own store,
and commands on files the starting shop book.
A command that did its work ends with 0; one that did not says why and ends with 1.`)
}

func runVersion(_ context.Context, out io.Writer, args []string) error {
	if len(args) > 0 {
		return usageError("it takes no arguments")
	}
	_, err := fmt.Fprintf(out, "%s %s\n", buildinfo.Name, buildinfo.Version)
	return err
}

// parseOptions takes the flags a command knows out of its arguments: those with a
// value, and those without.
func parseOptions(args []string, valued, bare []string) (rest []string, values map[string]string, err error) {
	values = map[string]string{}
	for i := 0; i < len(args); i++ {
		name, value, has := strings.Cut(args[i], "=")
		switch {
		case !isOption(args[i]):
			rest = append(rest, args[i])
		case slices.Contains(bare, name) && !has:
			values[name] = "yes"
		case slices.Contains(valued, name) && has:
			values[name] = value
		case slices.Contains(valued, name) && i+1 < len(args) && !strings.HasPrefix(args[i+1], "--"):
			i++
			values[name] = args[i]
		case slices.Contains(valued, name):
			return nil, nil, usageError(name + " wants a value")
		default:
			return nil, nil, usageError("there is no option " + args[i])
		}
	}
	return rest, values, nil
}

// isOption tells an option from a file, standard input ("-") and a value below
// zero ("-3 mm").
func isOption(arg string) bool {
	return len(arg) > 1 && arg[0] == '-' && !strings.ContainsRune("0123456789.,", rune(arg[1]))
}
