// A person's name: one that can be read, and that nobody else has in a form that looks the same.
import { type SQL, sql } from 'drizzle-orm'
import type { AnyPgColumn } from 'drizzle-orm/pg-core'
import { refuseUnwanted } from '../../kit/characters.ts'
import { Refusal } from '../../kit/refusal.ts'

/** A name as names are compared: the database folds it, in the one place that its unique index uses too. */
export function folded(name: string | AnyPgColumn): SQL<string> {
  return sql<string>`folded(${name})`
}

/**
 * The name as it is kept. Throws Refusal (field name) for characters that nobody sees, and for letters of two scripts, as a
 * Cyrillic М beside a Latin M makes two people who look the same on a decision.
 */
export function checkedName(typed: string): string {
  const name = typed.trim().replace(/\p{Zs}+/gu, ' ')
  refuseUnwanted('name', name)
  if (name === '' || name.length > 80) throw new Refusal('invalid', 'name/length', {}, 'name')
  if (blanks.test(name)) throw new Refusal('invalid', 'name/blank', {}, 'name')
  if (!/\p{L}/u.test(name)) throw new Refusal('invalid', 'name/without-letters', {}, 'name')
  const used = scriptsIn(name)
  if (used === undefined) throw new Refusal('invalid', 'name/uncommon-script', {}, 'name')
  if (!systems.some((system) => used.every((script) => system.includes(script))))
    throw new Refusal('invalid', 'name/mixed-scripts', { scripts: used }, 'name')
  return name
}

/** Characters that show nothing though they are letters or marks, and the blank pattern of Braille. */
const blanks = /[\p{Default_Ignorable_Code_Point}\u2800]/u

/** Scripts in common use: Unicode Standard Annex 31, table 5 (recommended scripts). */
const scripts = (
  'Arabic Armenian Bengali Bopomofo Cyrillic Devanagari Ethiopic Georgian Greek Gujarati Gurmukhi Han Hangul Hebrew ' +
  'Hiragana Kannada Katakana Khmer Lao Latin Malayalam Myanmar Oriya Sinhala Tamil Telugu Thaana Thai Tibetan'
).split(' ')

/** Japanese, Korean and Chinese are each written in more than one script: Unicode Technical Standard 39, section 5.1. */
const together = ['Han Hiragana Katakana', 'Han Hangul', 'Han Bopomofo'].map((names) => names.split(' '))
const systems = [...scripts.map((script) => [script]), ...together]

const letters = scripts.map((script) => ({ script, pattern: new RegExp(`\\p{Script=${script}}`, 'u') }))

/** Letters that every script shares, such as a modifier, belong to none. Undefined where a letter is of no common script. */
function scriptsIn(name: string): string[] | undefined {
  const used = new Set<string>()
  for (const letter of name.match(/[\p{L}\p{M}]/gu) ?? []) {
    if (/[\p{Script=Common}\p{Script=Inherited}]/u.test(letter)) continue
    const found = letters.find(({ pattern }) => pattern.test(letter))
    if (found === undefined) return undefined
    used.add(found.script)
  }
  return [...used]
}
