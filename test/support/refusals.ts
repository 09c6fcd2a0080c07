// What a refusal says, for tests of verbs: the sentence that the page would show.
import { Refusal } from '../../app/kit/refusal.ts'
import type { BadRow } from '../../app/lots/rules/file/bad-rows.ts'
import { sentenceOf } from '../../views/words/refusals.ts'

/** Does the same; what it refuses has the page's sentence as its message. Anything else is thrown as it is. */
export async function aloud<T>(done: Promise<T>): Promise<T> {
  try {
    return await done
  } catch (error) {
    throw spoken(error)
  }
}

/** The same for what answers at once. */
export function aloudAtOnce<T>(act: () => T): () => T {
  return () => {
    try {
      return act()
    } catch (error) {
      throw spoken(error)
    }
  }
}

/** A bad row of a results file as its page says it. */
export function rowAloud({ line, causes }: BadRow): { line: number; reason: string } {
  return { line, reason: causes.map(sentenceOf).join('; ') }
}

function spoken(error: unknown): unknown {
  if (!(error instanceof Refusal)) return error
  const { name, kind, field } = error
  return Object.assign(new Error(sentenceOf(error), { cause: error }), { name, kind, field })
}
