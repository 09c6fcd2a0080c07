// A clause of a contract, as an item or an order carries it: its number and its text, or neither.
import { refuseUnwanted } from './characters.ts'
import { lengths } from './limits.ts'
import { Refusal } from './refusal.ts'

export type Clause = { number: string; text: string }

/** As rows have it. */
export type ClauseColumns = { clauseNumber: string | null; clauseText: string | null }

/** As it is said; what is not said, or empty, is none. */
export type SaidClause = { [Column in keyof ClauseColumns]?: string | null | undefined }

/** The clause as it is kept. Throws Refusal that names the field to mend. */
export function checkedClause(said: SaidClause): ClauseColumns {
  const number = said.clauseNumber?.trim() ?? ''
  const text = said.clauseText?.trim() ?? ''
  if (number === '' && text === '') return { clauseNumber: null, clauseText: null }
  if (number === '' || number.length > lengths.clauseNumber)
    throw new Refusal('invalid', 'clause/number', {}, 'clauseNumber')
  refuseUnwanted('clauseNumber', number)
  if (text === '' || text.length > lengths.clauseText) throw new Refusal('invalid', 'clause/text', {}, 'clauseText')
  return { clauseNumber: number, clauseText: text }
}

/** The clause of a row; undefined where it has none. */
export function clauseIn({ clauseNumber, clauseText }: ClauseColumns): Clause | undefined {
  return clauseNumber === null || clauseText === null ? undefined : { number: clauseNumber, text: clauseText }
}

/** Of a lot: its order's clause, and where the order has none that of its item. */
export function clauseOfLot(order: ClauseColumns, item: ClauseColumns): ClauseColumns {
  const { clauseNumber, clauseText } = order.clauseNumber === null ? item : order
  return { clauseNumber, clauseText }
}
