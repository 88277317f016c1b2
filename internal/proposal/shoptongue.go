package proposal

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// tongueOf is the language of the papers that the work is done by: what the quote
// says for them, or else what the shop book does.
func tongueOf(p quote.Paper) string {
	chosen := shop.PaperLanguage.Def()
	at := slices.Index(chosen.Choices, p.Shop.Value(shop.PaperLanguage).Text)
	return cmp.Or(p.Quote.Words["shop language"], Languages()[max(at, 0)])
}

// say gives words of the paper's language. What goes wrong with a template is told
// when the paper is finished.
func (c *costs) say(name string, data any) string { return c.words.say(name, data) }

// term says a name of the estimate, or of the starting shop book, in the paper's
// language; a name of the shop's own stays as it is.
func (c *costs) term(name string) string {
	if c.language.code == "en" {
		return name
	}
	if alloy, ok := strings.CutPrefix(name, itemMetal); ok {
		return c.say("term-bronze-used-up", c.term(alloy))
	}
	if stone, ok := strings.CutSuffix(name, " plinth"); ok {
		return c.say("term-plinth", lowerFirst(c.term(stone)))
	}
	if c.words.templates.Lookup(termKey(name)) == nil {
		return name
	}
	return c.say(termKey(name), nil)
}

// spokenCautions are the estimate's cautions that a paper of the work may speak
// of, by how they are worded; what changes from one to the next is in brackets.
var spokenCautions = []struct {
	words *regexp.Regexp
	key   string
}{
	{regexp.MustCompile(`^Hot wax burns`), "wax"},
	{regexp.MustCompile(`^Respirable crystalline silica`), "silica"},
	{regexp.MustCompile(`^A section of (.+) weighs about (.+) in its shell`), "section"},
	{regexp.MustCompile(`^(\d+) in 100 chance that at least one of (\S+) sections`), "recast"},
	{regexp.MustCompile(`^Molten bronze near`), "molten"},
	{regexp.MustCompile(`^Metal fume`), "fume"},
	{regexp.MustCompile(`^(.+) holds .*lead.*: lead fume`), "lead"},
	{regexp.MustCompile(`^Knock-off and blasting`), "knock"},
	{regexp.MustCompile(`^Nitrates and chlorides`), "patina"},
}

// caution says a caution in the paper's language, with its source.
func (c *costs) caution(x estimate.Caution) string {
	words := x.Text
	for _, s := range spokenCautions {
		if m := s.words.FindStringSubmatch(x.Text); m != nil && c.language.code != "en" {
			said := make([]string, len(m)-1)
			for i, w := range m[1:] {
				said[i] = c.language.fixed(c.term(w))
			}
			words = c.say("caution-"+s.key, said)
			break
		}
	}
	if x.Source != "" {
		source := strings.ReplaceAll(x.Source, "from memory", c.say("shop-from-memory", nil))
		if c.language.code != "en" {
			source = strings.TrimSuffix(source, " counts knock-off") // the clause, without what is said of it
		}
		words += " (" + source + ")"
	}
	return words
}
