package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The whole parts and tubes among the examples of the language's reference have no
// failed check and no warning.
func TestWholeExamplesAreClean(t *testing.T) {
	text, err := os.ReadFile(root + "/flat/describe/LANGUAGE.md")
	require.NoError(t, err)
	whole, tubes := 0, 0
	for _, e := range strings.Split(string(text), "```yaml\n")[1:] {
		e, _, _ := strings.Cut(e, "```")
		switch {
		case strings.HasPrefix(e, "part:"):
			whole++
		case strings.HasPrefix(e, "tube:"):
			tubes++
		default:
			continue
		}
		var out, talk bytes.Buffer
		code := run([]string{"blankwright", "check", "-"}, strings.NewReader(e), &out, &talk)
		assert.Equal(t, exitClean, code, "%s%s%s", e, out.String(), talk.String())
		assert.NotContains(t, out.String(), ": warning: ", e)
	}
	assert.GreaterOrEqual(t, whole, 4)
	assert.GreaterOrEqual(t, tubes, 2)
}
