package proposal

import "strings"

// block is a piece of running text: a title, a head, a paragraph or an item of
// a list.
type block struct {
	kind  byte // '#' title, '+' head, '-' item, ' ' paragraph
	words string
}

// blocks reads the text of a section. A line that begins with "# " is its
// title, with "## " a head below it, with "- " an item of a list; other lines
// run together into paragraphs, which an empty line ends.
func blocks(text string) []block {
	var all []block
	open := false // the last block takes more lines
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		kind, words := byte(' '), line
		switch {
		case line == "":
			open = false
			continue
		case strings.HasPrefix(line, "# "):
			kind, words = '#', line[2:]
		case strings.HasPrefix(line, "## "):
			kind, words = '+', line[3:]
		case strings.HasPrefix(line, "- "):
			kind, words = '-', line[2:]
		}
		if open && kind == ' ' {
			all[len(all)-1].words += " " + words
			continue
		}
		all = append(all, block{kind, strings.TrimSpace(words)})
		open = kind == ' ' || kind == '-'
	}
	return all
}

// ownWords makes what somebody typed into paragraphs: each line of theirs is one.
// They may have heads and lists, but a title is the section's alone.
func ownWords(text string) string {
	var lines []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			if strings.HasPrefix(line, "# ") {
				line = "#" + line
			}
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n\n")
}

// shortItem is up to how many lines an item of a list stays with the next.
const shortItem = 4

// running sets the blocks of a section, its first paragraph in a style of its
// own. A last paragraph of one line stays with what is before it.
func (t *setter) running(all []block, first style) []strip {
	var strips []strip
	s := first
	for i, b := range all {
		switch b.kind {
		case '#':
			strips = append(strips, t.heading(b.words, 0)...)
		case '+':
			lines := t.heading(b.words, 1)
			if i > 0 && all[i-1].kind == '#' {
				lines[0].before = 2
			}
			strips = append(strips, lines...)
		case '-':
			if last := i == len(all)-1 || all[i+1].kind != '-'; last && i > 0 && all[i-1].kind == '-' {
				strips[len(strips)-1].keep = true // no item of a list is alone on its page
			}
			lines := t.item(bodyStyle, b.words)
			if first := i == 0 || all[i-1].kind != '-'; first && i+1 < len(all) && all[i+1].kind == '-' && len(lines) <= shortItem {
				lines[len(lines)-1].keep = true // nor is the first of them left behind
			}
			strips = append(strips, lines...)
		default:
			before := 7.0
			if i > 0 && (all[i-1].kind == '#' || all[i-1].kind == '+') {
				before = 2
			}
			lines := t.paragraph(s, b.words, 0, before)
			if strings.HasSuffix(b.words, ":") || before == 2 && len(lines) < 3 && i < len(all)-1 {
				lines[len(lines)-1].keep = true // with the list it announces
			}
			if len(lines) == 1 && i == len(all)-1 && i > 0 {
				strips[len(strips)-1].keep = true
			}
			strips = append(strips, lines...)
		}
		if b.kind == ' ' || b.kind == '-' {
			s = bodyStyle
		}
	}
	return strips
}
