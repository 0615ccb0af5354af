package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fits holds a value against a schema of the words that reportSchema uses, and
// refuses a schema with others.
func fits(root, schema map[string]any, v any, at string) error {
	for word := range schema {
		if !slices.Contains([]string{"$schema", "$defs", "$ref", "title", "description", "type", "items", "properties", "required",
			"additionalProperties", "enum"}, word) {
			return fmt.Errorf("%s: the schema has %q", at, word)
		}
	}
	if ref, ok := schema["$ref"].(string); ok {
		def, ok := root["$defs"].(map[string]any)[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any)
		if !ok {
			return fmt.Errorf("%s: no definition %s", at, ref)
		}
		return fits(root, def, v, at)
	}
	if words, ok := schema["enum"].([]any); ok && !slices.Contains(words, v) {
		return fmt.Errorf("%s: %v is none of %v", at, v, words)
	}
	switch schema["type"] {
	case "array":
		list, ok := v.([]any)
		if !ok {
			return fmt.Errorf("%s: %T is no array", at, v)
		}
		for i, item := range list {
			if err := fits(root, schema["items"].(map[string]any), item, fmt.Sprintf("%s[%d]", at, i)); err != nil {
				return err
			}
		}
	case "object":
		m, ok := v.(map[string]any)
		if !ok {
			return fmt.Errorf("%s: %T is no object", at, v)
		}
		props := schema["properties"].(map[string]any)
		for _, k := range schema["required"].([]any) {
			if _, ok := m[k.(string)]; !ok {
				return fmt.Errorf("%s: no %s", at, k)
			}
		}
		for k, item := range m {
			p, ok := props[k].(map[string]any)
			if !ok {
				return fmt.Errorf("%s: unknown %s", at, k)
			}
			if err := fits(root, p, item, at+"."+k); err != nil {
				return err
			}
		}
	case "string":
		if _, ok := v.(string); !ok {
			return fmt.Errorf("%s: %T is no string", at, v)
		}
	case "boolean":
		if _, ok := v.(bool); !ok {
			return fmt.Errorf("%s: %T is no boolean", at, v)
		}
	case "number", "integer":
		f, ok := v.(float64)
		if !ok || schema["type"] == "integer" && f != math.Trunc(f) {
			return fmt.Errorf("%s: %v is no %s", at, v, schema["type"])
		}
	case nil:
		if schema["enum"] == nil {
			return fmt.Errorf("%s: the schema says nothing", at)
		}
	default:
		return fmt.Errorf("%s: the schema has the type %v", at, schema["type"])
	}
	return nil
}

// What check prints of every sample, and of what is no description at all, is as
// the schema says.
func TestReportsFitTheSchema(t *testing.T) {
	var schema map[string]any
	require.NoError(t, json.Unmarshal(reportSchema, &schema))
	files, err := filepath.Glob("../../samples/*/*.yaml")
	require.NoError(t, err)
	more, err := filepath.Glob("../../flat/check/testdata/samples/*.yaml")
	require.NoError(t, err)
	jobs, err := filepath.Glob("../../samples/jobs/*/*/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, jobs)
	wrong, err := filepath.Glob("../../flat/describe/testdata/*.yaml")
	require.NoError(t, err)
	files = slices.Concat(files, more, jobs, wrong)
	require.Greater(t, len(files), 60)
	for _, f := range files {
		var out, talk bytes.Buffer
		run([]string{"blankwright", "check", "--json", f}, strings.NewReader(""), &out, &talk)
		var v any
		require.NoError(t, json.Unmarshal(out.Bytes(), &v), f)
		assert.NoError(t, fits(schema, schema, v, f))
	}
	assert.Error(t, fits(schema, schema, []any{map[string]any{"file": 1.0, "parts": []any{}}}, "a number for a name"))
	assert.Error(t, fits(schema, schema, []any{map[string]any{"file": "a", "parts": []any{}, "more": 1.0}}, "an unknown key"))
}

func TestSchemaCommand(t *testing.T) {
	var out, talk bytes.Buffer
	assert.Equal(t, 0, run([]string{"blankwright", "schema"}, strings.NewReader(""), &out, &talk))
	assert.Equal(t, string(reportSchema), out.String())
	assert.Equal(t, exitWrong, run([]string{"blankwright", "schema", "x"}, strings.NewReader(""), &out, &talk))
}
