// Tells the audit what was refused to whom.
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Logger } from 'pino'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { recordOften } from '../../audit/often.ts'
import { faultOf } from '../../kit/fault.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Env } from './env.ts'

/** Acts that were not the reader's to do, and forms from elsewhere. The refusal itself stands, told or not. */
export async function tellRefused(error: unknown, c: Context<Env>, log: Logger): Promise<void> {
  const { db, person, network } = c.var
  try {
    if (error instanceof Refusal && error.kind === 'forbidden' && person) {
      const subject = `people/${person.id}`
      await recordOften(db, { who: person, action: 'person.refused', subject, detail: { said: sentenceOf(error) } })
    }
    if (error instanceof HTTPException && error.status === 403)
      await recordOften(db, { who: 'Somebody', action: 'form.refused', subject: 'forms', detail: { network } })
  } catch (fault) {
    log.error({ requestId: c.var.requestId, ...faultOf(fault).forTheLog }, 'a refusal was not told to the audit')
  }
}
