// The example's people, for the demonstration's sign-in page.

import { and, eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person, Role } from '../../terms/person.ts'
import { firmOf } from '../firm.ts'
import { openSessionFor } from '../sessions/sign-in.ts'

export type ExamplePerson = { id: number; name: string; role: Role }

/** Everybody active, in the order in which a lot meets them. */
export async function examplePeople(db: Db): Promise<ExamplePerson[]> {
  return db
    .select({ id: people.id, name: people.name, role: people.role })
    .from(people)
    .where(eq(people.active, true))
    .orderBy(people.role, people.id)
}

/** Opens a session without a password: in an example database alone, which holds nothing true. */
export async function signInAsExample(db: Db, id: number): Promise<string> {
  const [person] = await db
    .select()
    .from(people)
    .where(and(eq(people.id, id), eq(people.active, true)))
  if (!person || !(await firmOf(db))?.example) throw new Refusal('forbidden', 'example/people-only', {})
  const acting: Person = { id: person.id, name: person.name, role: person.role, separateDuties: true }
  return openSessionFor(db, acting)
}
