package diag

import "unicode/utf8"

// longestWord is the most characters that Nearest compares; what people type
// for a word of ours is never longer, and it bounds the work.
const longestWord = 40

// Nearest gives the known word that a person most likely meant by word, or ""
// when none is near. Near is one slip for every three characters, and at least
// one: a wrong, missing, added or doubled letter, or two neighbours swapped
// (optimal string alignment distance; Damerau, A technique for computer
// detection and correction of spelling errors, 1964). Case, spaces, hyphens and
// underscores do not count. Of equally near words the first one wins.
func Nearest(word string, known []string) string {
	w := fold(word)
	if len(w) == 0 {
		return ""
	}
	limit := max(1, len(w)/3)
	best, bestD := "", limit+1
	for _, k := range known {
		d := slips(w, fold(k), bestD)
		if d < bestD {
			best, bestD = k, d
		}
	}
	return best
}

// fold keeps the characters of a word that count, lower case; nil if there are
// too many of them.
func fold(s string) []rune {
	if len(s) > longestWord*utf8.UTFMax {
		return nil
	}
	out := make([]rune, 0, len(s))
	for _, r := range s {
		switch {
		case r == ' ' || r == '-' || r == '_':
			continue
		case 'A' <= r && r <= 'Z':
			r += 'a' - 'A'
		}
		out = append(out, r)
	}
	if len(out) > longestWord {
		return nil
	}
	return out
}

// slips counts the slips between two words; the answer is at least limit where
// it would be that or more.
func slips(a, b []rune, limit int) int {
	if len(b) == 0 || len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	var rows [3][longestWord + 1]int
	before, last, now := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			d := last[j-1]
			if a[i-1] != b[j-1] {
				d = 1 + min(d, last[j], now[j-1])
			}
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, before[j-2]+1)
			}
			now[j] = d
			least = min(least, d)
		}
		if least >= limit {
			return limit
		}
		before, last, now = last, now, before
	}
	return min(last[len(b)], limit)
}
