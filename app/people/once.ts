// The same form sent twice, or sent again because the answer was lost, is carried out once.
import { eq } from 'drizzle-orm'
import type { Tx } from '../../db/client.ts'
import { submissions } from '../../db/schema/people.ts'
import { Refusal } from '../kit/refusal.ts'
import type { Person } from './person.ts'

/**
 * Claims a form's key inside the verb's transaction. True: go on. False: this form was carried out before, do nothing.
 * A second sending at the same moment waits here until the first is committed or given up.
 */
export async function firstTime(tx: Tx, person: Person, key: string): Promise<boolean> {
  const claimed = await tx.insert(submissions).values({ key, personId: person.id }).onConflictDoNothing().returning()
  return claimed.length === 1
}

/** Makes a thing once for a form's key and returns its number; sent again, the form is answered with that same number. */
export async function madeOnce(tx: Tx, person: Person, key: string, make: () => Promise<number>): Promise<number> {
  if (await firstTime(tx, person, key)) {
    const made = await make()
    await tx.update(submissions).set({ made }).where(eq(submissions.key, key))
    return made
  }
  const [before] = await tx.select({ made: submissions.made }).from(submissions).where(eq(submissions.key, key))
  if (!before || before.made === null) throw new Refusal('conflict', 'This form was sent before, for something else')
  return before.made
}
