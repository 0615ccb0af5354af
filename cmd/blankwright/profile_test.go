package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankwright/profiles"

	"github.com/stretchr/testify/require"
)

// The profiles that README.md and PROFILE.md show are such.
func TestShownProfiles(t *testing.T) {
	read := func(doc, after string) *profiles.Set {
		text, err := os.ReadFile(filepath.Join(root, doc))
		require.NoError(t, err)
		_, rest, ok := strings.Cut(string(text), after)
		require.True(t, ok, doc)
		s, err := profiles.ReadProfile("shop.yaml", []byte(block(t, rest, "```yaml\n")))
		require.NoError(t, err)
		return s
	}
	require.Equal(t, 1.8, read("profiles/PROFILE.md", "# A shop's own figures").Limit(profiles.WallRatio))
	read("README.md", "## A shop's own figures")
}
