// Forms of the bench: each entry keeps the key of the form that made it, for longer than the day for which keys are remembered.
import { and, eq } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { earlierResults, type results } from '../../../db/schema/results.ts'
import { type CarriedOut, type Input, inputDigest } from '../../people/once.ts'
import type { Entry } from '../rules/entry.ts'
import { entryIn } from './row.ts'

/** What a form that recorded an entry typed. Leading zeros are left out, as the database leaves them out. */
export function recordedInput(entry: Entry): Input {
  if (entry.kind !== 'tested') return { kind: entry.kind, note: entry.note }
  const { kind, crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool, testerSerial } = entry
  const margins = { crosstalkMargin: plain(crosstalkMargin), returnLossMargin: plain(returnLossMargin) }
  return { kind, ...margins, wireMap, visual, carton, spool, testerSerial }
}

/** What a form that corrected an entry typed. */
export function correctedInput(entry: Entry, { entryNumber, reason }: { entryNumber: number; reason: string }): Input {
  return { ...recordedInput(entry), entryNumber, reason }
}

type Standing = { result: typeof results.$inferSelect }

/** What a key did at this cord, whether its entry stands or was corrected since; undefined where it did nothing here. */
export async function enteredUnder(
  tx: Tx,
  standing: Standing | undefined,
  key: string,
): Promise<CarriedOut | undefined> {
  if (!standing) return undefined
  const { lotId, position, entry } = standing.result
  const earlier = entry === 1 ? [] : await earlierOf(tx, lotId, position)
  const made = [...earlier, standing.result].find(({ formKey }) => formKey === key)
  if (!made) return undefined
  const entryNumber = made.entry - 1
  const before = earlier.find(({ entry }) => entry === entryNumber)
  const input = before
    ? correctedInput(entryIn(made), { entryNumber, reason: before.correctionReason })
    : recordedInput(entryIn(made))
  return {
    personId: made.recordedBy,
    act: before ? 'cord.corrected' : 'cord.recorded',
    subject: `lot/${lotId}/cord/${position}`,
    inputDigest: inputDigest(input),
    made: position,
  }
}

function earlierOf(tx: Tx, lotId: number, position: number) {
  return tx
    .select()
    .from(earlierResults)
    .where(and(eq(earlierResults.lotId, lotId), eq(earlierResults.position, position)))
}

function plain(margin: string | undefined): string | undefined {
  return margin?.replace(/^(-?)0+(?=\d)/, '$1')
}
