package papertest

import (
	"os"
	"os/exec"
	"testing"
)

// Needs skips a test where a program that it compares with is not installed; on
// CI that is a failure.
func Needs(t testing.TB, programs ...string) {
	t.Helper()
	for _, p := range programs {
		if _, err := exec.LookPath(p); err == nil {
			continue
		}
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", p)
		}
		t.Skipf("%s is not installed", p)
	}
}

// Within reports what is off by more than limit mm.
func Within(t testing.TB, name string, all []Measured, limit float64) {
	t.Helper()
	for _, m := range all {
		if m.Off() > limit {
			t.Errorf("%s, %s: %.3f mm, want %.3f within %v", name, m.What, m.Got, m.Want, limit)
		}
	}
}
