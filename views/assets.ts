// What the browser fetches beside pages: one style sheet, htmx and the mark, each under a path that changes with its content.
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { projectRoot } from '../app/kit/root.ts'

export type Asset = { path: string; type: string; body: Buffer }

// The compiler copies no style sheets: the compiled program reads them beside the sources too.
const folder = join(projectRoot, 'views/static')

// Later layers win, whatever the order in which the files are read.
const layers = '@layer reset, base, layout, parts, pages, print;\n'

export const styleSheet = asset('css', 'text/css; charset=utf-8', Buffer.from(layers + styles()))
export const htmx = asset(
  'js',
  'text/javascript; charset=utf-8',
  readFileSync(createRequire(import.meta.url).resolve('htmx.org/dist/htmx.min.js')),
)
export const siteMark = asset('svg', 'image/svg+xml', readFileSync(join(folder, 'mark.svg')))

/** Everything to be served, for a year, as it never changes under its path. */
export const assets: Asset[] = [styleSheet, htmx, siteMark]

function styles(): string {
  const names = readdirSync(folder).filter((name) => name.endsWith('.css'))
  return names
    .sort()
    .map((name) => readFileSync(join(folder, name), 'utf8'))
    .join('\n')
}

function asset(extension: string, type: string, body: Buffer): Asset {
  const hash = createHash('sha256').update(body).digest('hex').slice(0, 16)
  return { path: `/assets/${hash}.${extension}`, type, body }
}
