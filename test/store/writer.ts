/** Writes revisions until it is killed, telling each one only after the store has answered. */
import { createBuild, isTaken, openBuild, saveEdit } from '../../main/store/builds.ts';
import { openStore } from '../../main/store/open.ts';

const dataDir = process.argv[2]!;
const store = openStore({ dataDir, now: () => new Date(0) });
const documentOf = (n: number) => ({
  name: `Edit ${n}`,
  unveiling: '2027-05-14',
  note: 'x'.repeat(n % 500),
  areas: Array.from({ length: 200 }, (_, i) => i * 7.31),
});

let last = 1;
if (isTaken(store.read, 'build')) last = openBuild(store.read, 'build').revision;
else {
  createBuild(store.write, {
    id: 'build',
    document: documentOf(1),
    label: 'New',
    sample: null,
    nowMs: 0,
  });
}
process.stdout.write(`${last}\n`);
for (let n = last + 1; ; n += 1) {
  const edit = {
    id: 'build',
    expects: n - 1,
    label: `Edit ${n}`,
    document: documentOf(n),
    nowMs: 0,
  };
  saveEdit(store.write, edit);
  process.stdout.write(`${n}\n`);
}
