// The ways on from a lot's page, for every lot of the example and every role, held against the table of what a state allows.
import { beforeAll, describe, expect, test } from 'vitest'
import { factsOf, type LotFacts } from '../../app/lots/record/lot.ts'
import { lifecycle } from '../../app/lots/rules/lifecycle.ts'
import type { LotAct } from '../../app/terms/lot.ts'
import { type Person, roles } from '../../app/terms/person.ts'
import { databaseOver } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { people } from '../../db/schema/people.ts'
import { plantExample } from '../../seed/example.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'

const { db, owner } = await freshDatabase()
beforeAll(() => plantExample(databaseOver(owner)))

type Way = { act: LotAct; mark: string; also?: (lot: LotFacts) => boolean }

/** `mark`: what the page holds where the way is shown; `also`: what must be so besides. */
const ways: Way[] = [
  { act: 'correct', mark: 'href="/lots/N/correction"' },
  { act: 'receive', mark: 'href="/lots/N/receipt"' },
  { act: 'plan', mark: 'class="button" href="/lots/N/plan"' },
  { act: 'draw', mark: 'href="/lots/N/draw/review"' },
  { act: 'record', mark: 'href="/lots/N/bench"', also: (lot) => lot.progress.toDo > 0 },
  { act: 'record', mark: 'href="/lots/N/file"', also: (lot) => lot.progress.toDo > 0 },
  { act: 'accept', mark: 'href="/lots/N/decision"', also: (lot) => lot.verdict !== undefined },
  { act: 'sort', mark: 'href="/lots/N/closing"' },
  { act: 'withdraw', mark: 'href="/lots/N/withdrawal"' },
]

describe.each(roles)('a lot’s page shows a %s', (role) => {
  test('the way to what the table lets this role do, and to nothing else', async () => {
    const person = await personOf(role)
    const { appAs } = testApp(db)
    const client = await appAs(person)
    const seen = { shown: 0, hidden: 0 }
    for (const { id, state } of await db.select({ id: lots.id, state: lots.state }).from(lots)) {
      const page = await (await client.get(`/lots/${id}`)).text()
      const lot = await factsOf(db, id)
      for (const { act, mark, also } of ways) {
        const wanted = lifecycle[state][act]?.by === role && (also?.(lot) ?? true)
        expect({ id, state, mark, shown: page.includes(mark.replace('N', String(id))) }).toEqual({
          id,
          state,
          mark,
          shown: wanted,
        })
        seen[wanted ? 'shown' : 'hidden']++
      }
    }
    expect(seen.shown).toBeGreaterThan(2)
    expect(seen.hidden).toBeGreaterThan(100)
  })
})

async function personOf(role: Person['role']): Promise<Person> {
  const all = await db.select({ id: people.id, name: people.name, role: people.role }).from(people)
  const one = all.find((person) => person.role === role)
  if (!one) throw new Error(`the example has no ${role}`)
  return { ...one, separateDuties: true }
}
