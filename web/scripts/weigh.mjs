// Weighs the first load: what index.html asks for, and what that imports before anything is shown.
// Use: node scripts/weigh.mjs [dist] ; exits with 1 above the budget.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

const BUDGET = 170_000; // bytes of script and style, gzip -9
const dist = process.argv[2] ?? 'dist';
const html = readFileSync(join(dist, 'index.html'), 'utf8');
if (/<script(?![^>]*\bsrc=)|<style|\sstyle=|\son\w+=/i.test(html)) {
  console.error('index.html holds a script or style inline');
  process.exit(1);
}

const wanted = [...html.matchAll(/(?:src|href)="\/([^"]+\.(?:js|css))"/g)].map((m) => m[1]);
const seen = new Map();
while (wanted.length > 0) {
  const name = wanted.pop();
  if (seen.has(name)) continue;
  const content = readFileSync(join(dist, name));
  seen.set(name, gzipSync(content, { level: 9 }).length);
  if (!name.endsWith('.js')) continue;
  for (const m of content.toString().matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g)) {
    wanted.push(`assets/${m[1]}`);
  }
}
// The page that is shown first is loaded by the script at once.
let sum = 0;
for (const [name, bytes] of seen) {
  console.log(`${String(bytes).padStart(8)}  ${name}`);
  sum += bytes;
}
console.log(`${String(sum).padStart(8)}  of ${BUDGET} bytes, compressed`);
process.exit(sum > BUDGET ? 1 : 0);
