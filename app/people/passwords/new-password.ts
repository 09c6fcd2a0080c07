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
  const problem = problemOf(password, name)
  if (problem !== undefined) throw new Refusal('invalid', problem, field)
}

function problemOf(password: string, name: string): string | undefined {
  if (password.length < SHORTEST_PASSWORD) return `At least ${SHORTEST_PASSWORD} characters`
  const plain = password.normalize('NFKC').toLowerCase()
  if (new Set(plain).size < LEAST_DIFFERENT) return `At least ${LEAST_DIFFERENT} different characters`
  if (common.has(plain)) return 'This is one of the most common passwords, which are tried first: choose another'
  const part = partsOf(name).find((word) => plain.includes(word))
  if (part === undefined) return undefined
  return part === PRODUCT
    ? 'It holds the name of this program, which is tried first: choose another'
    : `It holds “${part}” of the name, which is tried first: choose another`
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
