package layout

import (
	"fmt"

	"blankwright/flat/num"
)

// Fault is what is wrong with what was asked for.
type Fault int8

// Faults of input.
const (
	NoPieces        Fault = iota // nothing to place
	NoSheets                     // nothing to place it on
	OptionInvalid                // a number that is no distance, count or time
	PieceInvalid                 // the outline of a piece is not valid
	PieceTooLarge                // a piece is larger than every sheet
	GapTooLarge                  // the gap is larger than a piece is wide
	SheetInvalid                 // the outline of a sheet is open, crosses itself, ...
	MarginTooLarge               // the margin leaves nothing of a sheet
	TurnsInvalid                 // a turn that is not a number
	QuantityInvalid              // less than one copy
)

// InputError is input that no layout can be made from.
type InputError struct {
	Fault     Fault
	Name      string  // of the piece or sheet; empty where the fault is in the options
	Got, Want float64 // mm, where the fault has a size: what was met, and its limit
	Turned    bool    // the piece may lie at any angle
	Err       error   // the kernel's own finding, or nil
}

// Unwrap gives the kernel's finding.
func (e *InputError) Unwrap() error { return e.Err }

func (e *InputError) Error() string {
	return e.Text(func(v float64) string { return num.Short(v, 2) + " mm" })
}

// Text says what is wrong, with lengths (given in mm) written by length.
func (e *InputError) Text(length func(mm float64) string) string {
	switch e.Fault {
	case NoPieces:
		return "there is no piece to place; give at least one"
	case NoSheets:
		return "there is no sheet to place pieces on; give at least one"
	case OptionInvalid:
		return fmt.Sprintf("%s is %s; give a number that is not negative", e.Name, num.Short(e.Got, 2))
	case PieceInvalid:
		return fmt.Sprintf("piece %q has no valid outline (%v); mend the part", e.Name, e.Err)
	case PieceTooLarge:
		other := " or allow other turns"
		if e.Turned {
			other = ""
		}
		return fmt.Sprintf("piece %q is larger than every sheet: it needs %s where the margins leave %s; give a larger sheet%s", e.Name, length(e.Got), length(e.Want), other)
	case GapTooLarge:
		return fmt.Sprintf("the gap of %s is larger than piece %q, which is %s wide; give a smaller gap", length(e.Got), e.Name, length(e.Want))
	case SheetInvalid:
		return fmt.Sprintf("sheet %q has no valid outline (%v); mend the drawing", e.Name, e.Err)
	case MarginTooLarge:
		return fmt.Sprintf("the margin of %s leaves nothing of sheet %q; give a smaller margin", length(e.Got), e.Name)
	case TurnsInvalid:
		return fmt.Sprintf("piece %q has a turn that is not a number; give angles", e.Name)
	}
	return fmt.Sprintf("piece %q has quantity %s; give at least 1", e.Name, num.Short(e.Got, 0))
}
