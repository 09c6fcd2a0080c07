// What the browser fetches beside pages: one style sheet, the type, htmx and the mark, each under a path that changes with its content.
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

/** Which letters a cut holds, as the packages say it: the second is fetched only where a name needs it. */
const latin =
  'U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD'
const latinExtended =
  'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C4,U+2113,U+2C60-2C7F,U+A720-A7FF'

const serif = { family: 'Source Serif 4 Variable', weights: '200 900' }
const sans = { family: 'Atkinson Hyperlegible Next Variable', weights: '200 800' }
const files = '@fontsource-variable'

const cuts = [
  cut(serif, latinExtended, `${files}/source-serif-4/files/source-serif-4-latin-ext-wght-normal.woff2`),
  cut(serif, latin, `${files}/source-serif-4/files/source-serif-4-latin-wght-normal.woff2`),
  cut(
    sans,
    latinExtended,
    `${files}/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-wght-normal.woff2`,
  ),
  cut(sans, latin, `${files}/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2`),
]

export const styleSheet = asset('css', 'text/css; charset=utf-8', Buffer.from(layers + faces() + styles()))
export const htmx = asset('js', 'text/javascript; charset=utf-8', ofPackage('htmx.org/dist/htmx.min.js'))
export const siteMark = asset('svg', 'image/svg+xml', readFileSync(join(folder, 'mark.svg')))

/** Everything to be served, for a year, as it never changes under its path. */
export const assets: Asset[] = [styleSheet, htmx, siteMark, ...cuts.map(({ file }) => file)]

type Face = { family: string; weights: string }
type Cut = Face & { letters: string; file: Asset }

function cut(face: Face, letters: string, path: string): Cut {
  return { ...face, letters, file: asset('woff2', 'font/woff2', ofPackage(path)) }
}

function faces(): string {
  return cuts
    .map(
      ({ family, weights, letters, file }) =>
        `@font-face { font-family: "${family}"; font-weight: ${weights}; font-display: swap; src: url(${file.path}) format("woff2"); unicode-range: ${letters} }\n`,
    )
    .join('')
}

function ofPackage(path: string): Buffer {
  return readFileSync(createRequire(import.meta.url).resolve(path))
}

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
