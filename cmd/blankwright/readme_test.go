package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The worked example of README.md says what the program says, and its picture
// is there.
func TestReadmeExample(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	text := string(readme)
	description := block(t, text, "```yaml\n")
	session := block(t, text, "```\n$ blankwright make hanger-plate.yaml\n")

	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("hanger-plate.yaml", []byte(description), 0o644))
	var out, talk bytes.Buffer
	assert.Equal(t, exitFailed, run([]string{"blankwright", "make", "hanger-plate.yaml"}, nil, &out, &talk))
	assert.Empty(t, out.String())
	for _, line := range strings.Split(strings.TrimSpace(session), "\n") {
		assert.Contains(t, talk.String(), line+"\n")
	}

	mended := strings.Replace(description, "nose: 5/8", "nose: 1", 1)
	require.NotEqual(t, description, mended)
	require.NoError(t, os.WriteFile("hanger-plate.yaml", []byte(mended), 0o644))
	assert.Equal(t, exitClean, run([]string{"blankwright", "make", "hanger-plate.yaml"}, nil, &out, &talk))
	assert.Equal(t, 6, strings.Count(out.String(), "\n"), out.String())
}

// So does the example with loads, line by line.
func TestReadmeLoads(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(readme), "### With loads\n")
	require.True(t, ok)
	description := block(t, text, "```yaml\n")
	session := block(t, text, "```\n$ blankwright check axle-link-tab.yaml\n")

	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("axle-link-tab.yaml", []byte(description), 0o644))
	var out, talk bytes.Buffer
	assert.Equal(t, exitFailed, run([]string{"blankwright", "check", "axle-link-tab.yaml"}, nil, &out, &talk))
	for _, line := range strings.Split(strings.Trim(session, "\n"), "\n") {
		assert.Contains(t, out.String(), line+"\n")
	}
	assert.Contains(t, out.String(), "error: edge-distance:")
	assert.NotContains(t, out.String(), "error: tear-out:")
}

// And the trap of the job, line by line.
func TestReadmeJob(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	session := block(t, string(readme), "```\n$ blankwright check samples/jobs/anti-wrap-link/trap/job.yaml\n")
	t.Chdir(root)
	var out, talk bytes.Buffer
	assert.Equal(t, exitFailed, run([]string{"blankwright", "check", "samples/jobs/anti-wrap-link/trap/job.yaml"}, nil, &out, &talk))
	for _, line := range strings.Split(strings.Trim(session, "\n"), "\n") {
		assert.Contains(t, out.String(), line+"\n")
	}
}

// Every file that README.md and DEVELOPERS.md link to is there.
func TestLinks(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)]+)\)`)
	for _, doc := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile(filepath.Join(root, doc))
		require.NoError(t, err)
		for _, m := range link.FindAllStringSubmatch(string(text), -1) {
			if !strings.HasPrefix(m[1], "https://") {
				assert.FileExists(t, filepath.Join(root, m[1]), doc)
			}
		}
	}
}

// block gives what stands between an opening line and the next fence.
func block(t *testing.T, text, open string) string {
	t.Helper()
	_, after, ok := strings.Cut(text, open)
	require.True(t, ok, "README.md has no block %q", open)
	inside, _, ok := strings.Cut(after, "```")
	require.True(t, ok)
	return inside
}
