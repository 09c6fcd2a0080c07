// Where the checkout lies, seen from the sources and from the compiled output alike.
import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'

/** Folder that holds package.json; migrations and style sheets are read from there, because the compiler copies neither. */
export const projectRoot = climb(import.meta.dirname)

function climb(folder: string): string {
  if (existsSync(join(folder, 'package.json'))) return folder
  const parent = dirname(folder)
  if (parent === folder) throw new Error(`No package.json above ${import.meta.dirname}`)
  return climb(parent)
}
