/** The built page as a fixed list: what is not on it does not exist. */
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
};

export interface PageFile {
  readonly type: string;
  readonly body: Buffer;
}

/** URL path, as in `/assets/index.js`, to the file. */
export type PageFiles = ReadonlyMap<string, PageFile>;

/**
 * Reads the built page once, so that nothing swapped in later is ever served. Links, hidden files
 * and unknown kinds are left out. `/` is index.html.
 * @throws Error when the folder holds no index.html
 */
export function readPage(root: string): PageFiles {
  const files = new Map<string, PageFile>();
  const walk = (folder: string): void => {
    for (const name of readdirSync(folder).sort()) {
      const path = join(folder, name);
      const stat = lstatSync(path);
      if (name.startsWith('.')) continue;
      if (stat.isDirectory()) walk(path);
      const type = TYPES[extname(name)];
      if (!stat.isFile() || type === undefined) continue;
      const url = `/${relative(root, path).split(sep).join('/')}`;
      files.set(url, { type, body: readFileSync(path) });
    }
  };
  walk(root);
  const index = files.get('/index.html');
  if (!index) throw new Error(`No built page in ${root}: npm run build makes it`);
  files.set('/', index);
  return files;
}

/**
 * The file that a request's path names, or null. The path is taken as it came: one with an escape,
 * a backslash or a `..` is on no list.
 */
export function fileAt(files: PageFiles, requestPath: string): PageFile | null {
  return files.get(requestPath.split(/[?#]/, 1)[0] ?? '') ?? null;
}
