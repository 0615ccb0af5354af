package main

import (
	"encoding/json"

	"blankwright/flat/check"
	"blankwright/flat/diag"
)

// fileReport is what --json prints for one description.
type fileReport struct {
	File   string          `json:"file"`
	Errors []problemReport `json:"errors,omitempty"`
	Parts  []partReport    `json:"parts"`
	// Products are tubes and jobs.
	Products []productReport `json:"products,omitempty"`
}

// problemReport is one thing wrong with a description, or the reason why it
// could not be read or computed (then without a place).
type problemReport struct {
	Position *diag.Pos `json:"position,omitempty"`
	Message  string    `json:"message"`
	Hint     string    `json:"hint,omitempty"`
}

// partReport is what --json prints for one blank.
type partReport struct {
	Part      string              `json:"part"`
	Hand      string              `json:"hand"`
	Quantity  int                 `json:"quantity"`
	Failed    bool                `json:"failed"`
	Findings  []diag.Finding      `json:"findings"`
	Method    string              `json:"method,omitempty"`
	Used      []check.Utilisation `json:"utilisations"`
	Assumed   []string            `json:"assumptions"`
	Unchecked []string            `json:"not_checked"`
	Cautions  []string            `json:"cautions"`
	Cutting   cutReport           `json:"cutting"`
	Bending   *bendingReport      `json:"bending,omitempty"`
	Unmarked  []string            `json:"marks_by_hand,omitempty"`
	Files     []string            `json:"files,omitempty"`
	Notes     []string            `json:"notes,omitempty"` // about the files
}

func newPartReport(c checked) partReport {
	return partReport{
		Part:      c.blank.Name,
		Hand:      c.blank.Hand.String(),
		Quantity:  c.blank.Quantity,
		Failed:    c.failed,
		Findings:  append([]diag.Finding{}, c.findings...),
		Method:    check.Method(c.blank),
		Used:      check.Utilisations(c.blank),
		Assumed:   check.Assumptions(c.blank),
		Unchecked: check.Unchecked(c.blank),
		Cautions:  check.Cautions(),
		Unmarked:  c.unmarked,
		Cutting:   newCutReport(c.blank, c.order()),
		Bending:   newBendingReport(c.blank),
	}
}

func (t *talk) printJSON(v any) {
	b, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		t.say("blankwright: error: cannot write JSON: %v", err)
		t.worst(exitCannot)
		return
	}
	t.print(append(b, '\n'))
}
