// What a new password must be. Passwords that were set before stay good until they are changed.
import { dictionary } from '@zxcvbn-ts/language-common'
import { Refusal } from '../../kit/refusal.ts'

export const SHORTEST_PASSWORD = 12
const LEAST_DIFFERENT = 5
const PRODUCT = 'cordsift'

/**
 * Throws Refusal (`field`) for a password that a guesser tries first: short, of few different characters, among the 49,233
 * most common ones (docs/sources.md), or with a part of the product's or the person's own name in it.
 */
export function refuseGuessable(password: string, { name, field }: { name: string; field: string }): void {
  if (password.length < SHORTEST_PASSWORD)
    throw new Refusal('invalid', 'password/short', { least: SHORTEST_PASSWORD }, field)
  const plain = password.normalize('NFKC').toLowerCase()
  if (new Set(plain).size < LEAST_DIFFERENT)
    throw new Refusal('invalid', 'password/few-different', { least: LEAST_DIFFERENT }, field)
  if (common.has(plain)) throw new Refusal('invalid', 'password/common', {}, field)
  const part = partsOf(name).find((word) => plain.includes(word))
  if (part === PRODUCT) throw new Refusal('invalid', 'password/product', {}, field)
  if (part !== undefined) throw new Refusal('invalid', 'password/own-name', { part }, field)
}

const common = new Set(dictionary['passwords-common'].map((password) => password.toLowerCase()))

/** Words of four letters and more, and the whole name run together; shorter ones are in too many good passwords. */
function partsOf(name: string): string[] {
  const words =
    name
      .normalize('NFKC')
      .toLowerCase()
      .match(/[\p{L}\p{M}\p{N}]+/gu) ?? []
  return [PRODUCT, ...words, words.join('')].filter((word) => [...word].length >= 4)
}
