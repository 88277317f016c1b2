package tongue_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/ui/tongue"
)

func TestOnlyThePlainLanguageWithLettersIsPutRight(t *testing.T) {
	for _, x := range []struct {
		env  map[string]string
		want string
	}{
		{map[string]string{"LANG": "C.UTF-8"}, "LANGUAGE"},
		{map[string]string{"LANG": "POSIX.UTF-8"}, "LANGUAGE"},
		{map[string]string{"LC_ALL": "C.UTF-8", "LANG": "fr_CA.UTF-8"}, "LANGUAGE"},
		{map[string]string{"LC_MESSAGES": "fr_CA.UTF-8", "LANG": "C.UTF-8"}, ""},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "fr"}, ""},
		{map[string]string{"LANG": "C"}, ""},
		{map[string]string{"LANG": "en_US.UTF-8"}, ""},
		{map[string]string{}, ""},
	} {
		name, value := tongue.Remedy(func(key string) string { return x.env[key] })
		assert.Equal(t, x.want, name, "%v", x.env)
		assert.Equal(t, x.want != "", value == "en", "%v", x.env)
	}
}
