// The same form sent twice, or sent again because the answer was lost, is carried out once.

import type { Tx } from '../../db/client.ts'
import { submissions } from '../../db/schema/people.ts'
import type { Person } from './person.ts'

/**
 * Claims a form's key inside the verb's transaction. True: go on. False: this form was carried out before, do nothing.
 * A second sending at the same moment waits here until the first is committed or given up.
 */
export async function firstTime(tx: Tx, person: Person, key: string): Promise<boolean> {
  const claimed = await tx.insert(submissions).values({ key, personId: person.id }).onConflictDoNothing().returning()
  return claimed.length === 1
}
