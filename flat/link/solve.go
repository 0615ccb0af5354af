package link

import (
	"math"

	"blankwright/flat/num"
)

// matrix is a dense matrix by rows.
type matrix struct {
	rows, cols int
	v          []float64
}

func newMatrix(rows, cols int) matrix { return matrix{rows, cols, make([]float64, rows*cols)} }

func (m matrix) row(i int) []float64 { return m.v[i*m.cols : (i+1)*m.cols] }

func (m matrix) copied() matrix {
	c := newMatrix(m.rows, m.cols)
	copy(c.v, m.v)
	return c
}

// basis is a matrix taken apart by elimination with complete pivoting: its rank
// and the rows and columns that make it.
type basis struct {
	rank       int
	rows, cols []int // order of rows and columns; the first rank of each make a regular block
	lu         matrix
}

// takeApart eliminates; pivots under num.FreePivot are nothing. Entries are taken
// to be of size 1.
func takeApart(a matrix) basis {
	b := basis{rows: count(a.rows), cols: count(a.cols), lu: a.copied()}
	m := b.lu
	n := min(a.rows, a.cols)
	for k := range n {
		pi, pj, most := k, k, 0.0
		for i := k; i < m.rows; i++ {
			for j, v := range m.row(i)[k:] {
				if v = math.Abs(v); v > most {
					pi, pj, most = i, k+j, v
				}
			}
		}
		if most <= num.FreePivot {
			break
		}
		b.rank++
		b.swap(k, pi, pj)
		pivotRow := m.row(k)
		for i := k + 1; i < m.rows; i++ {
			r := m.row(i)
			f := r[k] / pivotRow[k]
			r[k] = f
			if f == 0 {
				continue
			}
			for j := k + 1; j < m.cols; j++ {
				r[j] -= f * pivotRow[j]
			}
		}
	}
	return b
}

func count(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func (b *basis) swap(k, i, j int) {
	if i != k {
		b.rows[i], b.rows[k] = b.rows[k], b.rows[i]
		ri, rk := b.lu.row(i), b.lu.row(k)
		for c := range ri {
			ri[c], rk[c] = rk[c], ri[c]
		}
	}
	if j != k {
		b.cols[j], b.cols[k] = b.cols[k], b.cols[j]
		for r := range b.lu.rows {
			row := b.lu.row(r)
			row[j], row[k] = row[k], row[j]
		}
	}
}

// solve gives x with A x = f that uses the basis columns alone; A must have full
// row rank.
func (b *basis) solve(f []float64) []float64 {
	n := b.rank
	y := make([]float64, n)
	for i := range n {
		s := f[b.rows[i]]
		for j, l := range b.lu.row(i)[:i] {
			s -= l * y[j]
		}
		y[i] = s
	}
	for i := n - 1; i >= 0; i-- {
		r := b.lu.row(i)
		s := y[i]
		for j := i + 1; j < n; j++ {
			s -= r[j] * y[j]
		}
		y[i] = s / r[i]
	}
	x := make([]float64, b.lu.cols)
	for i := range n {
		x[b.cols[i]] = y[i]
	}
	return x
}

// idle gives a vector y, its largest part 1, with yᵀA = 0, where the rank of A is
// less than its rows: the motion that no column resists.
func idle(a matrix) []float64 {
	t := newMatrix(a.cols, a.rows)
	for i := range a.rows {
		for j, v := range a.row(i) {
			t.row(j)[i] = v
		}
	}
	b := takeApart(t)
	y := make([]float64, a.rows)
	free := b.cols[b.rank]
	y[free] = 1
	for i := b.rank - 1; i >= 0; i-- {
		r := b.lu.row(i)
		s := -r[b.rank]
		for j := i + 1; j < b.rank; j++ {
			s -= r[j] * y[b.cols[j]]
		}
		y[b.cols[i]] = s / r[i]
	}
	most := 0.0
	for _, v := range y {
		if math.Abs(v) > math.Abs(most) {
			most = v
		}
	}
	for i := range y {
		y[i] /= most
	}
	return y
}

// times is A x.
func (m matrix) times(x []float64) []float64 {
	out := make([]float64, m.rows)
	for i := range out {
		s := 0.0
		for j, v := range m.row(i) {
			s += v * x[j]
		}
		out[i] = s
	}
	return out
}
