// Characters that no name and no mark may hold, as nobody can see them: two that look alike would not be the same.

/** What an unwanted character does, for the sentence that refuses it. */
export type Unwanted = 'zero' | 'control' | 'invisible' | 'direction' | 'broken'

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

const kinds: [Unwanted, RegExp][] = [
  ['zero', /\0/],
  ['direction', /\p{Bidi_Control}/u],
  ['control', /[\p{Cc}\p{Zl}\p{Zp}]/u],
  ['broken', /[\p{Cs}\p{Co}\p{Cn}]/u],
  ['invisible', /\p{Cf}/u],
]
