// Everybody who has or had an account.

import { desc } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import type { Role } from '../../terms/person.ts'

export type PersonFacts = { id: number; name: string; role: Role; active: boolean; createdAt: Date }

/** The active ones first, each group in the order in which they came. */
export async function peopleOf(db: Db): Promise<PersonFacts[]> {
  const { id, name, role, active, createdAt } = people
  return db.select({ id, name, role, active, createdAt }).from(people).orderBy(desc(active), id)
}
