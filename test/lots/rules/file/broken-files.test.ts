// Good results files broken at random, from a fixed seed: each is refused or recorded whole, and none is a fault.
import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { factsOf } from '../../../../app/lots/record/lot.ts'
import { testApp } from '../../../support/app.ts'
import { freshDatabase } from '../../../support/database.ts'
import { drawnLot } from '../../../support/lot.ts'
import { threePeople } from '../../../support/people.ts'
import { randomFrom } from '../../../support/random.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const inspector = await testApp(db).appAs(three.inspector)

const FILES = 200
const ROWS = 3
const SEED = 20_261
const random = randomFrom(SEED)
const below = (bound: number) => Math.floor(random() * bound)
const oneOf = <T>(values: readonly T[]): T => {
  const value = values[below(values.length)]
  if (value === undefined) throw new Error('nothing to choose from')
  return value
}

const foreign = [
  '\0',
  '"',
  '\n',
  '\r',
  ',',
  ';',
  '\t',
  '\u202e',
  '\u200b',
  '\ufeff',
  '-',
  '0',
  '9',
  'x',
  '\u00e9',
  '\u{1F50C}',
  '(dB)',
  ' ',
  'sep=;\n',
]

/** Breaks a text at one place: something put in, taken out, doubled or exchanged. */
function broken(text: string): string {
  const at = below(text.length)
  const to = Math.min(text.length, at + below(12))
  switch (below(5)) {
    case 0:
      return text.slice(0, at) + oneOf(foreign) + text.slice(at)
    case 1:
      return text.slice(0, at) + text.slice(to)
    case 2:
      return text.slice(0, to) + text.slice(at)
    case 3:
      return text.slice(0, at) + oneOf(foreign).repeat(1 + below(2000)) + text.slice(to)
    default:
      return text.replaceAll(oneOf([',', '\n', '1', 'pass', ' ']), oneOf(foreign))
  }
}

function encoded(text: string): Uint8Array<ArrayBuffer> {
  switch (below(5)) {
    case 0:
      return Buffer.from(text, 'utf16le')
    case 1:
      return Buffer.from(text, 'latin1')
    case 2:
      return Buffer.from(text).map((byte) => (below(40) === 0 ? below(256) : byte))
    default:
      return Buffer.from(text)
  }
}

function goodFile(from: number): string {
  const rows = Array.from({ length: ROWS }, (_, i) => `${from + i},1.${below(100)},-0.4,pass,in order,T-${below(9)}`)
  return ['position,crosstalk margin,return loss margin,wire map,visual,tester serial', ...rows, ''].join('\n')
}

test(`${FILES} broken files: each refused or recorded whole`, { timeout: 120_000 }, async () => {
  const size = FILES * ROWS
  const lotId = await drawnLot(db, three, {
    size,
    plan: { kind: 'every-cord', sampleSize: size, acceptanceNumber: size },
  })
  const seen = new Map<number, number>()
  let recorded = 0
  for (let file = 0; file < FILES; file++) {
    const times = below(3)
    let text = goodFile(1 + file * ROWS)
    for (let time = 0; time <= times; time++) text = broken(text)
    const answer = await inspector.post(`/lots/${lotId}/file`, {
      key: randomUUID(),
      file: new File([encoded(text)], 'a.csv'),
    })
    expect([303, 422], text).toContain(answer.status)
    seen.set(answer.status, (seen.get(answer.status) ?? 0) + 1)
    const { progress, audit } = await factsOf(db, lotId)
    const told = answer.status === 303 ? audit[0]?.detail : { count: 0 }
    expect(told).toMatchObject({ count: progress.sampleRecorded - recorded })
    recorded = progress.sampleRecorded
  }
  expect(seen.get(422)).toBeGreaterThan(FILES / 2)
  expect(seen.get(303)).toBeGreaterThan(0)
})
