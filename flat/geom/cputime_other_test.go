//go:build !unix

package geom

// cpuTime is not known here.
func cpuTime() int64 { return 0 }
