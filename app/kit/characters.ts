// Characters that no name and no mark may hold, as nobody can see them: two that look alike would not be the same.
import type { Unwanted } from '../terms/text.ts'
import { Refusal } from './refusal.ts'

/**
 * The first kind of unwanted character in a text, or undefined where there is none. A longer text may hold line ends and tabs.
 *
 * zero: U+0000, which PostgreSQL keeps in no text; direction: those that turn the reading order; invisible: other format
 * characters, such as zero-width spaces and the soft hyphen; broken: half of a surrogate pair, or a code that is no character.
 * Source: general categories Cc, Cf, Cs, Co, Cn, Zl and Zp of the Unicode Standard; direction: its Bidi_Control property.
 */
export function unwantedIn(text: string, { lines }: { lines: boolean }): Unwanted | undefined {
  const read = lines ? text.replace(/[\t\n\r]/g, ' ') : text
  for (const [kind, characters] of kinds) if (characters.test(read)) return kind
  return undefined
}

/** What it is called in a sentence. */
export const unwantedNames: Readonly<Record<Unwanted, string>> = {
  zero: 'a zero character, which cannot be kept',
  control: 'a control character or a line end, which cannot be kept',
  direction: 'a mark that turns the reading direction, which nobody can see',
  broken: 'a broken character, which cannot be kept',
  invisible: 'a character without width, which nobody can see',
}

/** What to tell the person who typed or pasted it. */
export function unwantedSentence(unwanted: Unwanted): string {
  return `It holds ${unwantedNames[unwanted]}: type it instead of pasting it`
}

/** For a verb: refuses a line of text that holds such a character, and names its field. */
export function refuseUnwanted(field: string, text: string): void {
  const unwanted = unwantedIn(text, { lines: false })
  if (unwanted) throw new Refusal('invalid', 'text/unwanted', { unwanted }, field)
}

const kinds: [Unwanted, RegExp][] = [
  ['zero', /\0/],
  ['direction', /\p{Bidi_Control}/u],
  ['control', /[\p{Cc}\p{Zl}\p{Zp}]/u],
  ['broken', /[\p{Cs}\p{Co}\p{Cn}]/u],
  ['invisible', /\p{Cf}/u],
]
