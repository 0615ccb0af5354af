#!/bin/sh
# Prints how many times faster the kernel is than the faster of two
# general-purpose polygon libraries, shape by shape and operation by operation,
# measured in the same minute in processor time. Fails if a ratio is below what
# is promised: 3 for parts with arcs, 1 for comb-500 and star-10k.
#
#   .ci/kernel-ratios.sh           the table of ratios
#   .ci/kernel-ratios.sh scaling   time against the number of segments instead
#
# Needs: go, g++, libgeos-dev, libpolyclipping-dev.
# TOLERANCE is the chord tolerance in mm for the libraries (0.0254 = 0.001 in).
set -eu
cd "$(dirname "$0")/.."
tolerance=${TOLERANCE:-0.0254}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
go test -c -o "$work/bench" ./flat/geom

# Keeps name and processor time of each benchmark line.
cpu_times() {
	awk '/^Benchmark/ {
		for (i = 2; i <= NF; i++) if ($i == "cpu-ns/op") {
			split($1, name, "/"); sub(/-[0-9]+$/, "", name[3]); sub(/-[0-9]+$/, "", name[4])
			print name[2], name[3], (name[4] == "" ? "ours" : name[4]), $(i-1)
		}
	}'
}

if [ "${1:-}" = scaling ]; then
	(cd flat/geom && "$work/bench" -test.run '^$' -test.bench '^BenchmarkScaling$' -test.benchtime 2s) | cpu_times |
		awk '{
			perlog = $4 / ($3 * log($3) / log(2))
			if (!(($1, $2) in base)) base[$1, $2] = perlog
			printf "%-6s %-12s %7d segments %12.3f ms %8.1f ns/segment   %5.2f of the first n log n\n", $1, $2, $3, $4 / 1e6, $4 / $3, perlog / base[$1, $2]
		}'
	exit
fi

g++ -O2 -std=c++17 -o "$work/peer" .ci/peer/peer.cpp -lgeos_c -lpolyclipping
# Shape by shape, so that what is compared is measured within seconds.
for shape in bracket link-plate flange-12 scallop-40 perforated-1000 comb-500 star-10k; do
	"$work/peer" flat/geom/testdata/shapes "$tolerance" "$shape" >>"$work/times"
	(cd flat/geom && "$work/bench" -test.run '^$' -test.bench "^(BenchmarkBoolean|BenchmarkOffset)\$/^$shape\$" \
		-test.benchtime 0.3s -test.count 3) | cpu_times >>"$work/times"
done
awk '{
	key = $1 " " $2
	if (!(key in seen)) { seen[key] = 1; order[++n] = key }
	if ($3 == "ours") got[key, ++runs[key]] = $4
	else lib[key, $3] = $4
}
# The middle one of the three runs of a key.
function median(key,   a, b, c) {
	a = got[key, 1]; b = got[key, 2]; c = got[key, 3]
	if ((a <= b) == (b <= c)) return b
	if ((b <= a) == (a <= c)) return a
	return c
}
END {
	printf "%-16s %-12s %12s %12s %12s %8s %7s\n", "shape", "operation", "geos us", "polyclip us", "ours us", "times", "wanted"
	for (i = 1; i <= n; i++) {
		key = order[i]; split(key, w, " ")
		ours[key] = median(key)
		best = lib[key, "geos"]
		if (lib[key, "polyclipping"] < best) best = lib[key, "polyclipping"]
		want = (w[1] == "comb-500" || w[1] == "star-10k") ? 1 : 3
		ratio = best / ours[key]
		note = ratio < want ? "  too slow" : ""
		if (ratio < want) bad = 1
		printf "%-16s %-12s %12.1f %12.1f %12.1f %7.1fx %6dx%s\n", w[1], w[2], lib[key, "geos"] / 1e3, lib[key, "polyclipping"] / 1e3, ours[key] / 1e3, ratio, want, note
	}
	exit bad
}' "$work/times"
