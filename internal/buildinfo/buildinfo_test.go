package buildinfo

import (
	"os"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestThePackagerIsToldTheSameAsTheProgramSays(t *testing.T) {
	text, err := os.ReadFile("../../FyneApp.toml")
	require.NoError(t, err)
	for key, value := range map[string]string{
		"Name":    strconv.Quote(Name),
		"ID":      strconv.Quote(ID),
		"Version": strconv.Quote(Version),
		"Build":   strconv.Itoa(Build),
		"Icon":    `"assets/icon.png"`,
		"fyneDo":  "true", // as the build tag migrated_fynedo says
	} {
		found := regexp.MustCompile(`(?m)^`+key+` = (.*)$`).FindAllStringSubmatch(string(text), -1)
		require.Len(t, found, 1, "%s is said once", key)
		assert.Equal(t, value, found[0][1], key)
	}
}

// Source: semver.org 2.0.0, its suggested expression, without pre-releases.
func TestTheVersionIsASemanticOne(t *testing.T) {
	assert.Regexp(t, `^(0|[1-9]\d*)\.(0|[1-9]\d*)\.(0|[1-9]\d*)$`, Version)
	assert.Positive(t, Build)
}

// Source: Fyne, "App metadata": the ID is a reverse-domain name.
func TestTheIDIsADomainNameBackwards(t *testing.T) {
	assert.Regexp(t, `^[a-z]+(\.[a-z][a-z0-9-]*){2,}$`, ID)
}
