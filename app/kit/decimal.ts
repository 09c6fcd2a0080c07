// Exact decimal reading of what people type: shares of a lot and margins, never through binary fractions.

/**
 * The number of cords that is too many, from a whole number such as 5 or a share such as 1 % or 0,5%.
 * A share is rounded up to whole cords in decimal: 0.29 × 1000 is 290, not 290.00000000000006 and so 291.
 * Returns undefined where the text is neither, or comes to less than 1 or more than the lot.
 */
export function wholeCords(text: string, lotSize: number): number | undefined {
  const share = shareOf(text, lotSize)
  const cords = share && Number((share.scaled + share.parts - 1n) / share.parts)
  return cords !== undefined && cords >= 1 && cords <= lotSize ? cords : undefined
}

/** The most cords of a good lot, from the same texts: a share is rounded down, as 4.32 cords are no more than 4. None is a number too. */
export function wholeCordsAtMost(text: string, lotSize: number): number | undefined {
  const share = shareOf(text, lotSize)
  const cords = share && Number(share.scaled / share.parts)
  return cords !== undefined && cords <= lotSize ? cords : undefined
}

/** Cords as a fraction of whole numbers: `scaled` of `parts`. */
function shareOf(text: string, lotSize: number): { scaled: bigint; parts: bigint } | undefined {
  const match = /^(\d{1,9})(?:[.,](\d{1,12}))?\s*(%?)$/.exec(text.trim())
  if (!match) return undefined
  const decimals = match[2] ?? ''
  if (match[3] === '' && decimals !== '') return undefined
  const digits = BigInt((match[1] ?? '') + decimals)
  const percent = match[3] === '%'
  return percent
    ? { scaled: digits * BigInt(lotSize), parts: 100n * 10n ** BigInt(decimals.length) }
    : { scaled: digits, parts: 1n }
}

/**
 * Reads an unsigned or signed decimal with point or comma, such as 1.7, +2,40 or −0.04, and keeps every digit.
 * Returns the number in plain notation with a point and a leading - where negative, or undefined.
 */
export function plainDecimal(text: string): string | undefined {
  const match = /^([+\-−–]?)(\d{1,6})(?:[.,](\d{1,9}))?$/.exec(text.trim())
  if (!match) return undefined
  const sign = match[1] === '' || match[1] === '+' ? '' : '-'
  return `${sign}${match[2]}${match[3] === undefined ? '' : `.${match[3]}`}`
}

/**
 * Compares two plain decimals digit by digit: below 0, 0 or above 0 as `left` is less than, equal to or greater than `right`.
 * Throws RangeError where a text is no plain decimal. Binary fractions would call 0.99999999999999999 equal to 1.
 */
export function compareDecimals(left: string, right: string): number {
  const decimals = Math.max(decimalsOf(left), decimalsOf(right))
  const difference = scaled(left, decimals) - scaled(right, decimals)
  return difference < 0n ? -1 : difference > 0n ? 1 : 0
}

function decimalsOf(text: string): number {
  return text.split('.')[1]?.length ?? 0
}

function scaled(text: string, decimals: number): bigint {
  if (!/^-?\d+(\.\d+)?$/.test(text)) throw new RangeError(`a plain decimal was expected, not ${text}`)
  const [whole = '', fraction = ''] = text.split('.')
  return BigInt(whole + fraction.padEnd(decimals, '0'))
}

/** The number in the middle between two plain decimals that are not negative, with every digit: 97.5 between 95 and 100. */
export function halfway(one: string, other: string): string {
  const decimals = Math.max(...[one, other].map((each) => each.split('.')[1]?.length ?? 0)) + 1
  const scaled = ([whole = '', part = '']: string[]) => BigInt(whole + part.padEnd(decimals, '0'))
  const digits = String((scaled(one.split('.')) + scaled(other.split('.'))) / 2n).padStart(decimals + 1, '0')
  return `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`.replace(/\.?0+$/, '')
}
