package profiles

import (
	"fmt"
	"strings"
)

// Densities in kg/m3.
const (
	steelDensity     = 7850 // EN 1991-1-1, Table A.4 (77.0 to 78.5 kN/m3), from memory
	stainlessDensity = 8000 // EN 10088-1 gives 7900 to 8000, from memory; the heavier
	aluminiumDensity = 2700 // EN 1991-1-1, Table A.4 and alloy data, from memory
)

const (
	en1993 = "EN 1993-1-1:2005, Table 3.1, t <= 40 mm"
	en1014 = "EN 10149-2, Table 2"
	adm    = "Aluminum Design Manual, Table A.3.4"
)

// materialRow is a material with its other names.
type materialRow struct {
	m       Material
	aliases []string
}

// materials: MaxT is the thickness up to which Fy and Fu are the standard's.
var materials = []materialRow{
	{us("A36", 36, 58, 8, "ASTM A36/A36M", Standard), nil},
	{us("A572-42", 42, 60, 6, "ASTM A572/A572M, Grade 42", FromMemory), nil},
	{us("A572-50", 50, 65, 4, "ASTM A572/A572M, Grade 50", Standard), nil},
	{us("A572-60", 60, 75, 1.25, "ASTM A572/A572M, Grade 60", FromMemory), nil},
	{us("A572-65", 65, 80, 1.25, "ASTM A572/A572M, Grade 65", FromMemory), nil},
	{us("A588", 50, 70, 4, "ASTM A588/A588M", FromMemory), []string{"a58850"}},
	{us("A514", 100, 110, 2.5, "ASTM A514/A514M", FromMemory), nil},
	{us("A516-70", 38, 70, 8, "ASTM A516/A516M, Grade 70", FromMemory), nil},
	{us("A1011-36", 36, 53, 0.230, "ASTM A1011/A1011M, SS Grade 36 Type 1, hot-rolled sheet", FromMemory), []string{"a1011ss36"}},
	{us("A1011-50", 50, 65, 0.230, "ASTM A1011/A1011M, HSLAS Grade 50 Class 1, hot-rolled sheet", FromMemory), []string{"a1011hslas50"}},
	{us("4130 normalised", 70, 90, 1.5, "AMS 6350, 4130 sheet and plate, normalised, over 3/16 in", FromMemory), []string{"4130", "4130normalized", "4130n"}},

	{eu("S235", 235, 360, 40, en1993, FromMemory), []string{"s235jr", "s235j0", "s235j2", "st37"}},
	{eu("S275", 275, 430, 40, en1993, FromMemory), []string{"s275jr", "s275j0", "s275j2", "43a"}},
	{eu("S355", 355, 510, 40, en1993+"; the 2014 amendment has Fu 490, EN 10025-2 has 470", FromMemory), []string{"s355jr", "s355j0", "s355j2", "s355k2", "st52"}},
	{eu("S420N", 420, 520, 40, en1993, FromMemory), []string{"s420nl"}},
	{eu("S450", 440, 550, 40, en1993, FromMemory), []string{"s450j0"}},
	{eu("S460N", 460, 540, 40, en1993, FromMemory), []string{"s460nl"}},
	{eu("S355MC", 355, 430, 20, en1014, FromMemory), nil},
	{eu("S420MC", 420, 480, 20, en1014, FromMemory), nil},
	{eu("S500MC", 500, 550, 16, en1014, FromMemory), nil},
	{eu("S700MC", 680, 750, 10, en1014+"; 700 up to 8 mm", FromMemory), nil},
	{eu("S690QL", 690, 770, 50, "EN 10025-6, Table 5, t <= 50 mm", FromMemory), []string{"s690q", "s690ql1"}},

	{stainless("304", 30*ksi, 75*ksi, "ASTM A240/A240M, type 304", FromMemory), nil},
	{stainless("304L", 25*ksi, 70*ksi, "ASTM A240/A240M, type 304L", FromMemory), nil},
	{stainless("316", 30*ksi, 75*ksi, "ASTM A240/A240M, type 316", FromMemory), nil},
	{stainless("316L", 25*ksi, 70*ksi, "ASTM A240/A240M, type 316L", FromMemory), nil},
	{stainless("1.4301", 210, 520, "EN 10088-2, Table 7, hot-rolled plate", FromMemory), nil},
	{stainless("1.4401", 220, 520, "EN 10088-2, Table 7, hot-rolled plate", FromMemory), nil},
	{stainless("1.4404", 220, 520, "EN 10088-2, Table 7, hot-rolled plate", FromMemory), nil},

	{aluminium("6061-T6", 35*ksi, 42*ksi, 4*inch, adm+", sheet and plate; far weaker beside a weld", FromMemory), []string{"6061t651"}},
	{aluminium("6061-T6 extrusion", 35*ksi, 38*ksi, 4*inch, adm+", extrusions; far weaker beside a weld", FromMemory), []string{"6061t6511"}},
	{aluminium("5052-H32", 23*ksi, 31*ksi, 2*inch, adm+", sheet and plate", FromMemory), nil},
	{aluminium("5083-H116", 31*ksi, 44*ksi, 1.5*inch, adm+", sheet and plate", FromMemory), []string{"5083h321"}},
	{aluminium("5754-H111", 80, 190, 100, "EN 485-2, 5754 H111", FromMemory), nil},
	{aluminium("6082-T6", 240, 295, 100, "EN 1999-1-1, Table 3.2b, sheet over 12.5 mm (thinner is stronger); far weaker beside a weld", FromMemory), []string{"6082t651"}},
}

func us(name string, fy, fu, maxT float64, text string, p Prov) Material {
	return Material{Name: name, Fy: fy * ksi, Fu: fu * ksi, Density: steelDensity,
		Group: CarbonSteel, MaxT: maxT * inch, Source: Source{text, p}}
}

func eu(name string, fy, fu, maxT float64, text string, p Prov) Material {
	return Material{Name: name, Fy: fy, Fu: fu, Density: steelDensity,
		Group: CarbonSteel, MaxT: maxT, Source: Source{text, p}}
}

func stainless(name string, fy, fu float64, text string, p Prov) Material {
	return Material{Name: name, Fy: fy, Fu: fu, Density: stainlessDensity,
		Group: StainlessSteel, Source: Source{text, p}}
}

func aluminium(name string, fy, fu, maxT float64, text string, p Prov) Material {
	return Material{Name: name, Fy: fy, Fu: fu, Density: aluminiumDensity,
		Group: Aluminium, MaxT: maxT, Source: Source{text, p}}
}

// Materials gives all plate materials.
func Materials() []Material { return Default().Materials() }

// Materials gives all plate materials of the set.
func (s *Set) Materials() []Material {
	rows := s.orDefault().materials
	out := make([]Material, len(rows))
	for i, r := range rows {
		out[i] = r.m
	}
	return out
}

// materialFiller are words that may stand round a grade and do not tell grades
// apart.
var materialFiller = map[string]bool{
	"astm": true, "aisi": true, "en": true, "ams": true, "grade": true, "gr": true, "gr.": true,
	"type": true, "plate": true, "sheet": true, "steel": true, "stainless": true,
	"aluminium": true, "aluminum": true, "alloy": true,
}

// FindMaterial gives a plate material by its name: `A36`, `A572-50`,
// `a572 gr 50`, `S355`, `S355J2+N`, `304 stainless`, `6061-T6`. Case, spaces
// and hyphens do not count. A word that names no grade, such as mild steel, is
// an error.
func FindMaterial(name string) (Material, error) { return Default().FindMaterial(name) }

// FindMaterial gives a plate material of the set by its name.
func (s *Set) FindMaterial(name string) (Material, error) {
	if len(name) > longestName {
		return Material{}, errTooLong
	}
	want := materialKey(name)
	if want == "" || want == "mild" || want == "ms" || want == "carbon" {
		return Material{}, fmt.Errorf("%q names no grade; write one such as A36, S275, 304 or 6061-T6", name)
	}
	var known []string
	for _, r := range s.orDefault().materials {
		if squeeze(r.m.Name) == want {
			return r.m, nil
		}
		for _, a := range r.aliases {
			if a == want {
				return r.m, nil
			}
		}
		known = append(known, r.m.Name)
	}
	return Material{}, unknown("material", name, known)
}

// materialKey squeezes a name and takes the words off that do not count.
func materialKey(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r == ' ' || r == '-' || r == '_' || r == '\t' || r == '/'
	})
	var b strings.Builder
	for _, w := range words {
		if !materialFiller[w] {
			b.WriteString(strings.TrimPrefix(w, "astm"))
		}
	}
	key := b.String()
	for _, word := range [...]string{"grade", "gr.", "gr"} { // a572gr50
		if i := strings.Index(key, word); i >= 0 && i+len(word) < len(key) && '0' <= key[i+len(word)] && key[i+len(word)] <= '9' {
			key = key[:i] + key[i+len(word):]
			break
		}
	}
	for _, finish := range [...]string{"+n", "+ar", "+m"} { // delivery condition
		key = strings.TrimSuffix(key, finish)
	}
	return key
}
