package dxf

import (
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/handle"
)

// dictionary is a DICTIONARY object that names its owner (group 330), which the
// library's own leaves out and readers then have to mend. The root dictionary
// has no owner and writes 0.
type dictionary struct {
	id    int
	owner handle.Handler
	items []item
}

type item struct {
	name string
	is   handle.Handler
}

// IsObject is for the library's Object interface.
func (d *dictionary) IsObject() bool { return true }

// Handle is the object's handle.
func (d *dictionary) Handle() int { return d.id }

// SetHandle takes the next handle.
func (d *dictionary) SetHandle(next *int) {
	d.id = *next
	*next++
}

// Format writes the object.
func (d *dictionary) Format(f format.Formatter) {
	f.WriteString(0, "DICTIONARY")
	f.WriteHex(5, d.id)
	owner := 0
	if d.owner != nil {
		owner = d.owner.Handle()
	}
	f.WriteHex(330, owner)
	f.WriteString(100, "AcDbDictionary")
	f.WriteInt(281, 1)
	for _, it := range d.items {
		f.WriteString(3, it.name)
		f.WriteHex(350, it.is.Handle())
	}
}
