package fault

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

var thin = Fault{Where: "figure.wall", Field: "Wall thickness", Value: "-3 mm", Problem: "is below zero", Remedy: "give one such as 5 mm"}

func TestSentenceNamesFieldValueProblemAndRemedy(t *testing.T) {
	assert.Equal(t, "Wall thickness “-3 mm” is below zero; give one such as 5 mm", thin.Error())
	assert.Equal(t, "is below zero; give one such as 5 mm", thin.Short())
	assert.Equal(t, "“x” is no length", Fault{Value: "x", Problem: "is no length"}.Error())
}

func TestListTellsEveryFaultAndFindsOneByItsPath(t *testing.T) {
	l := List{thin, {Where: "price.margin", Field: "Margin", Problem: "is missing"}}
	assert.Equal(t, thin.Error()+"\nMargin is missing", l.Error())
	f, ok := l.At("price.margin")
	assert.True(t, ok)
	assert.Equal(t, "Margin", f.Field)
	_, ok = l.At("nowhere")
	assert.False(t, ok)
}

func TestEmptyListIsNoError(t *testing.T) {
	assert.NoError(t, List(nil).Err())
	assert.Error(t, List{thin}.Err())
}

func TestAllUnwrapsWhateverItIsGiven(t *testing.T) {
	assert.Nil(t, All(nil))
	assert.Equal(t, List{thin}, All(fmt.Errorf("estimate: %w", thin)))
	assert.Equal(t, List{thin, thin}, All(fmt.Errorf("estimate: %w", List{thin, thin}.Err())))
	assert.Equal(t, List{{Problem: "disk full"}}, All(errors.New("disk full")))
}
