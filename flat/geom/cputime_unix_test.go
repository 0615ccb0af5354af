//go:build unix

package geom

import "syscall"

// cpuTime is the processor time that the process has used so far, ns.
func cpuTime() int64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return u.Utime.Nano() + u.Stime.Nano()
}
