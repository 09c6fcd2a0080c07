// A cord's line in the audit holds no copy of its entry and reads as one that does, as earlier versions wrote it.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import type { Entry } from '../../app/lots/rules/entry.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, drawnLot, failing, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector } = three
const lotId = await drawnLot(db, three)
const positions = await toTest(db, lotId)
const client = await testApp(db).appAs(inspector)

/** What stands under "Details", line by line, the latest first. */
async function said(subject: string): Promise<string[]> {
  const page = await (await client.get(`/audit?about=${encodeURIComponent(subject)}`)).text()
  return [...page.matchAll(/<span class="said">(.*?)<\/span>/gs)].map(([, text]) => textOf(text ?? ''))
}

/** A line as version 0.2.0 wrote it, with all that the form said. */
const asBefore = (subject: string, action: string, detail: Record<string, unknown>) => owner`
  insert into audit (person_id, person_name, person_role, action, subject, detail)
  values (${inspector.id}, ${inspector.name}, 'inspector', ${action}, ${subject}, ${JSON.stringify(detail)}::text::jsonb)`

const marked: Entry = { ...clear, carton: 'C7', spool: 'S 9 & more', testerSerial: 'AT-1' }
const without: Entry = { ...clear, wireMap: 'at-fault', crosstalkMargin: undefined, returnLossMargin: undefined }
const gone: Entry = { kind: 'gone', note: 'Not in its carton; place empty' }
const entries: [string, Entry, string][] = [
  ['with every mark', marked, 'conforms'],
  ['below the limit', failing, 'does-not-conform'],
  ['without margins', without, 'does-not-conform'],
  ['of a cord that is missing', gone, 'not-tested'],
]

describe.each(entries.map((entry, at) => [...entry, positions[at] ?? 0] as const))(
  'an entry %s',
  (_, entry, state, position) => {
    const subject = `lot/${lotId}/cord/${position}`
    test('and its correction read as their copies did', async () => {
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...entry })
      const correction = { key: randomUUID(), position, entryNumber: 1, reason: 'Read again', ...clear }
      await correctResult(db, inspector, lotId, correction)
      await asBefore(subject, 'cord.recorded', { ...entry, state })
      await asBefore(subject, 'cord.corrected', {
        entry: 2,
        reason: 'Read again',
        ...clear,
        state: 'conforms',
        before: state,
      })
      const [copyOfCorrection, copyOfEntry, ofCorrection, ofEntry] = await said(subject)
      expect([ofCorrection, ofEntry]).toEqual([copyOfCorrection, copyOfEntry])
      expect(ofEntry).toContain(`state: ${state}`)
      expect(ofCorrection).toContain('reason: Read again')
      const kept = await owner`select detail from audit where subject = ${subject} order by id limit 2`
      expect(kept.map(({ detail }) => detail)).toEqual([{}, { entry: 2 }])
    })
  },
)
