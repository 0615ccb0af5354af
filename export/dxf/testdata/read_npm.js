// What two readers from npm make of drawings: one JSON object a file, by name.
// The folder with their node_modules is the first argument.
'use strict';
const fs = require('fs');
const path = require('path');
const from = path.join(process.argv[2], 'node_modules');
const Parser = require(path.join(from, 'dxf-parser'));
const { Helper } = require(path.join(from, 'dxf'));

const round = (e) => e.type === 'CIRCLE';

// dxf-parser: angles in radians, polylines' vertices with their bulges.
function byParser(text) {
  const P = Parser.default || Parser;
  const d = new P().parseSync(text);
  return d.entities.map((e) => ({
    layer: e.layer, kind: e.type,
    circle: round(e) ? [e.center.x, e.center.y, e.radius] : undefined,
    arc: e.type === 'ARC' ? [e.center.x, e.center.y, e.radius, e.startAngle, e.endAngle] : undefined,
    points: (e.vertices || []).map((v) => [v.x, v.y, v.bulge || 0]),
    closed: Boolean(e.shape),
  }));
}

// dxf: the same, named otherwise.
function byHelper(text) {
  const h = new Helper(text);
  return h.parsed.entities.map((e) => ({
    layer: e.layer, kind: e.type,
    circle: round(e) ? [e.x, e.y, e.r] : undefined,
    arc: e.type === 'ARC' ? [e.x, e.y, e.r, e.startAngle, e.endAngle] : undefined,
    points: (e.type === 'LINE' ? [e.start, e.end] : e.vertices || []).map((v) => [v.x, v.y, v.bulge || 0]),
    closed: Boolean(e.closed),
  }));
}

const readers = { 'dxf-parser': byParser, dxf: byHelper };
const out = {};
for (const f of process.argv.slice(3)) {
  const text = fs.readFileSync(f, 'latin1');
  out[f] = {};
  for (const [name, read] of Object.entries(readers)) out[f][name] = read(text);
}
process.stdout.write(JSON.stringify(out));
