// The manager's rulings on cords that are gone or spoiled here.
import { randomUUID } from 'node:crypto'

import { ruleOnCord } from '../../app/lots/acts/rule-on-cord.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'

/** Rules that the next reserve of the draw takes the cord's place; returns its position. entryNumber: the report that is ruled on, the first where none is named. */
export function takeReserve(
  db: Db,
  manager: Person,
  lotId: number,
  { entryNumber = 1, ...cord }: { key: string; position: number; entryNumber?: number },
): Promise<number> {
  return ruleOnCord(db, manager, lotId, { ...cord, entryNumber, ruling: 'reserve', reason: 'left the quarantine rack' })
}

/** Rules that the cord counts as not conforming. */
export function countAgainst(db: Db, manager: Person, lotId: number, position: number): Promise<number> {
  const ruling = { entryNumber: 1, ruling: 'nonconforming', reason: 'nobody knows where it went' } as const
  return ruleOnCord(db, manager, lotId, { key: randomUUID(), position, ...ruling })
}
