package dxf

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/yofu/dxf/entity"
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/table"

	"blankwright/flat/blank"
)

func TestFormatterGroups(t *testing.T) {
	f := &formatter{}
	f.SetPrecision(3)
	assert.Equal(t, "  0\r\nLINE\r\n", f.String(0, "LINE"))
	assert.Equal(t, "  5\r\n1F\r\n", f.Hex(5, 0x1f))
	assert.Equal(t, "  5\r\n0\r\n", f.Hex(5, 0))
	assert.Equal(t, "330\r\nABCDEF0\r\n", f.Hex(330, 0xabcdef0))
	assert.Equal(t, " 62\r\n-7\r\n", f.Int(62, -7))
	assert.Equal(t, "1071\r\n12\r\n", f.Int(1071, 12))
	assert.Equal(t, " 10\r\n1.235\r\n", f.Float(10, 1.23456))
	assert.Equal(t, " 42\r\n0.123456789012346\r\n", f.Float(42, 0.12345678901234561))
	assert.Equal(t, " 50\r\n0.1234567890123\r\n", f.Float(50, 0.12345678901234561))
	assert.Empty(t, f.Output())
	f.WriteString(0, "A")
	f.WriteHex(5, 16)
	f.WriteInt(70, 1)
	f.WriteFloat(40, -0.00001)
	assert.Equal(t, "  0\r\nA\r\n  5\r\n10\r\n 70\r\n1\r\n 40\r\n0.0\r\n", f.Output())
	assert.Empty(t, f.Output())
}

func TestFormatterDrops(t *testing.T) {
	f := &formatter{drop: setOf(5, 70, 100, 40)}
	f.WriteString(100, "AcDbEntity")
	f.WriteHex(5, 16)
	f.WriteInt(70, 1)
	f.WriteFloat(40, math.NaN())
	f.WriteString(8, "HOLES")
	assert.Equal(t, "  8\r\nHOLES\r\n", f.Output())
	assert.NoError(t, f.err)
}

func TestFormatterRefuses(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		f := &formatter{places: 9}
		c := entity.NewCircle()
		c.Radius = v
		c.Format(f)
		require.ErrorContains(t, f.err, "group 40 of CIRCLE is ")
		var out bytes.Buffer
		_, err := f.WriteTo(&out)
		require.Error(t, err)
		require.Zero(t, out.Len())
		f.Reset()
		require.NoError(t, f.err)
		assert.Empty(t, f.Float(10, v))
		require.Error(t, f.err)
	}
}

func TestFormatterWriteTo(t *testing.T) {
	f := &formatter{places: 9}
	f.WriteInt(70, 3)
	var out bytes.Buffer
	n, err := f.WriteTo(&out)
	require.NoError(t, err)
	assert.Equal(t, int64(out.Len()), n)
	assert.Equal(t, " 70\r\n3\r\n", out.String())
}

func TestAppendText(t *testing.T) {
	for in, want := range map[string]string{
		"":                      "",
		"axle tab":              "axle tab",
		"Größe ½ Ø":             `Gr\U+00F6\U+00DFe \U+00BD \U+00D8`,
		"漢":                     `\U+6F22`,
		"\U0001F600":            "?",
		"\xff":                  "?",
		"a\nb\rc\td":            "a b c d",
		"\x00\x1b\x7f":          "   ",
		"\u0085\u2028\ufeff":    "   ",
		`\U+000A`:               `\U+005CU+000A`,
		"^J":                    `\U+005EJ`,
		"100%%c \"x\" 'y' <&>~": "100%%c \"x\" 'y' <&>~",
	} {
		assert.Equal(t, want, string(appendText(nil, in)), "%q", in)
	}
}

func TestWrap(t *testing.T) {
	long := strings.Repeat("word ", 100)
	var lines []string
	for rest := long; rest != ""; {
		var line string
		line, rest = wrap(rest)
		lines = append(lines, line)
		assert.LessOrEqual(t, len(line), lineWidth)
	}
	assert.Equal(t, strings.Fields(long), strings.Fields(strings.Join(lines, " ")))
	line, rest := wrap(strings.Repeat("é", 100))
	assert.LessOrEqual(t, len(appendText(nil, line)), lineWidth)
	assert.Equal(t, 200, len(line)+len(rest))
	line, rest = wrap(strings.Repeat("x", lineWidth))
	assert.Len(t, line, lineWidth)
	assert.Empty(t, rest)
}

// TestFrame: no font file, no group of a later version, two empty blocks.
func TestFrame(t *testing.T) {
	before := string(frameOf(R2000, layersOf(&blank.Blank{})).before)
	assert.Contains(t, before, "*Model_Space")
	assert.Equal(t, 2, strings.Count(before, "  0\r\nBLOCK\r\n"))
	assert.NotContains(t, before, "281\r\n")
	assert.NotContains(t, strings.ToLower(before), ".ttf")
	var foreign bytes.Buffer
	ascii := format.NewASCII()
	record{table.NewBlockRecord("*Model_Space")}.Format(ascii)
	_, err := ascii.WriteTo(&foreign)
	require.NoError(t, err)
	assert.Contains(t, foreign.String(), "*Model_Space")
}
