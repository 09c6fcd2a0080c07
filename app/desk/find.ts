// Finds lots by what people call them: number, supplier, item, purchase order, production mark.
import { and, ilike, or, type SQL, sql } from 'drizzle-orm'
import { lots } from '../../db/schema/lots.ts'
import { items, suppliers } from '../../db/schema/register.ts'

/** More words than anybody needs are left out. */
const mostWords = 6

/** The words of a search as it was typed. */
export function wordsIn(typed: string): string[] {
  return typed
    .split(/\s+/)
    .filter((word) => word !== '')
    .slice(0, mostWords)
}

/** Every word is found in one of them, in capitals or not; no word finds all. Needs lots joined with suppliers and items. */
export function foundBy(words: readonly string[]): SQL | undefined {
  return and(...words.map(isFound))
}

function isFound(word: string): SQL | undefined {
  // in a pattern of like these three mean themselves only behind a backslash
  const like = `%${word.replace(/[\\%_]/g, '\\$&')}%`
  const texts = [suppliers.name, items.name, lots.purchaseOrder, lots.productionMark].map((text) => ilike(text, like))
  return or(...texts, sql`${lots.id}::text = ${word}`)
}
