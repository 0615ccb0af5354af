package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankwright/profiles"

	"github.com/stretchr/testify/require"
)

// The profile that README.md shows is one.
func TestReadmeProfile(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	_, after, ok := strings.Cut(string(readme), "## A shop's own figures")
	require.True(t, ok)
	s, err := profiles.ReadProfile("shop.yaml", []byte(block(t, after, "```yaml\n")))
	require.NoError(t, err)
	require.Equal(t, 1.8, s.Limit(profiles.WallRatio))
}
