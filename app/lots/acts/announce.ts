// A lot that is on its way: one supplier, one item, one production mark.
import type { Db } from '../../../db/client.ts'
import { lots } from '../../../db/schema/lots.ts'
import { record } from '../../audit/record.ts'
import { once } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { type AnnouncedLot, checkedAnnouncement } from '../record/announced.ts'
import { keepRule } from '../record/rule.ts'
import type { PlanRule } from '../rules/plan-rule.ts'

/** Announces a lot, with the rule of its plan where the officer chooses it at once. Returns its number; the same form sent again returns the same number. */
export async function announceLot(
  db: Db,
  officer: Person,
  { key, rule, ...announced }: AnnouncedLot & { key: string; rule?: PlanRule | undefined },
): Promise<number> {
  return db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'announce-lot')
    const input = await checkedAnnouncement(tx, announced)
    const { size, ...lot } = input
    const sent = { key, person: officer, act: 'lot.announced' as const, subject: 'lot', input: { ...input, rule } }
    const { made } = await once(tx, sent, async () => {
      const [added] = await tx
        .insert(lots)
        .values({ ...lot, announcedSize: size, announcedBy: officer.id })
        .returning({ id: lots.id })
      if (!added) throw new Error('the lot was not added')
      await record(tx, officer, 'lot.announced', `lot/${added.id}`, { ...lot, size })
      if (rule) await keepRule(tx, officer, { ...lot, id: added.id, announcedSize: size }, rule)
      return added.id
    })
    return made
  })
}
