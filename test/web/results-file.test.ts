// A results file as it is sent: who, which lot and in which state comes before its body, and no broken one is a fault.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { openSessionFor } from '../../app/people/sessions/sign-in.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, plannedLot, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const service = testApp(db)
const cookies = {
  inspector: `cordsift=${await openSessionFor(db, three.inspector)}`,
  officer: `cordsift=${await openSessionFor(db, three.officer)}`,
}

const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
const rowFor = (position: number) => `${position},1.7,0.4,in order,in order,T-204`
const BOUNDARY = 'a-boundary-of-the-test'

type Sent = { chunks: Iterable<string | Uint8Array>; type?: string; as?: keyof typeof cookies; length?: number }

/** Sends a body in chunks, each only when it is asked for; says how many were. */
async function post(lotId: number, { chunks, type, as = 'inspector', length }: Sent) {
  const next = chunks[Symbol.iterator]()
  let asked = 0
  const body = new ReadableStream(
    {
      pull(controller) {
        const chunk = next.next()
        if (chunk.done) return controller.close()
        asked += 1
        controller.enqueue(Buffer.from(chunk.value))
      },
    },
    { highWaterMark: 0 },
  )
  const answer = await service.app.request(`http://localhost/lots/${lotId}/file`, {
    method: 'POST',
    body,
    duplex: 'half',
    headers: {
      host: 'localhost',
      origin: 'http://localhost',
      cookie: cookies[as],
      'content-type': type ?? `multipart/form-data; boundary=${BOUNDARY}`,
      ...(length === undefined ? {} : { 'content-length': String(length) }),
    },
  } as RequestInit)
  return { status: answer.status, page: textOf(await answer.text()), asked }
}

function field(name: string, value: string, file = ''): string {
  return `--${BOUNDARY}\r\nContent-Disposition: form-data; name="${name}"${file}\r\n\r\n${value}\r\n`
}

const END = `--${BOUNDARY}--\r\n`
const named = '; filename="results.csv"'

function form(file: string, key: string = randomUUID()): string[] {
  return [field('key', key), field('file', file, named), field('text', ''), END]
}

/** 15 MiB of rows. */
function* endless() {
  yield field('key', randomUUID())
  yield `--${BOUNDARY}\r\nContent-Disposition: form-data; name="file"${named}\r\n\r\n${heading}\n`
  for (let chunk = 0; chunk < 240; chunk++) yield 'x,y\n'.repeat(16_384)
  yield `\r\n${END}`
}

async function recorded(lotId: number): Promise<number> {
  return (await factsOf(db, lotId)).progress.sampleRecorded
}

describe('nothing of the body is read', () => {
  test('of somebody whose work it is not', async () => {
    const lotId = await drawnLot(db, three)
    expect(await post(lotId, { chunks: endless(), as: 'officer' })).toMatchObject({ status: 403, asked: 0 })
  })

  test('for a lot that is not there', async () => {
    expect(await post(9999, { chunks: endless() })).toMatchObject({ status: 404, asked: 0 })
  })

  test('for a lot that is not being tested', async () => {
    const lotId = await plannedLot(db, three)
    expect(await post(lotId, { chunks: endless() })).toMatchObject({ status: 409, asked: 0 })
  })

  test('where its length is said to be too large', async () => {
    const lotId = await drawnLot(db, three)
    expect(await post(lotId, { chunks: endless(), length: 17 * 1024 * 1024 })).toMatchObject({ status: 413, asked: 0 })
  })
})

describe('a results file', () => {
  test('that grows too large without saying so is refused as soon as it is', async () => {
    const lotId = await drawnLot(db, three)
    function* growing() {
      yield field('key', randomUUID())
      yield `--${BOUNDARY}\r\nContent-Disposition: form-data; name="file"${named}\r\n\r\n`
      for (;;) yield 'x'.repeat(65_536)
    }
    const answer = await post(lotId, { chunks: growing() })
    expect(answer.status).toBe(413)
    expect(answer.asked).toBeLessThan(300) // 256 chunks are 16 MiB
  })

  test('with more rows than cords is passed over to its end, so that the page comes', async () => {
    const lotId = await drawnLot(db, three)
    const { status, page, asked } = await post(lotId, { chunks: endless() })
    expect({ status, asked }).toEqual({ status: 422, asked: 243 })
    expect(page).toContain('25 rows are in the way')
    expect(page).toContain('The lot has 24 cords and the file more rows')
  })

  test('of which many rows are bad names 200 and says how many there are', async () => {
    const size = 500
    const plan = { kind: 'every-cord', sampleSize: size, acceptanceNumber: size } as const
    const lotId = await drawnLot(db, three, { size, plan })
    const { page } = await post(lotId, { chunks: form(`${heading}\n${'x,y\n'.repeat(450)}`) })
    expect(page).toContain('450 rows are in the way')
    expect(page.match(/Line \d+:/g)).toHaveLength(200)
    expect(page).toContain('and 250 rows more')
  })

  test('with a zero character is refused by its line, sent and pasted', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    const text = `${heading}\n${position},1,1,pass,pass,T\0X`
    for (const chunks of [form(text), [field('key', randomUUID()), field('text', text), END]])
      expect(await post(lotId, { chunks })).toMatchObject({
        status: 422,
        page: expect.stringContaining('Line 2: The tester serial holds a zero character'),
      })
  })

  test('and a pasted text are not taken together', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0] = await toTest(db, lotId)
    const both = [
      field('key', randomUUID()),
      field('file', `${heading}\n${rowFor(one)}`, named),
      field('text', `${heading}\n${rowFor(two)}`),
      END,
    ]
    const { status, page } = await post(lotId, { chunks: both })
    expect(status).toBe(422)
    expect(page).toContain('not both')
    expect(await recorded(lotId)).toBe(0)
  })

  test('may come before the form’s key, but not without it', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    const [key = '', file = '', , end = ''] = form(`${heading}\n${rowFor(position)}`)
    expect(await post(lotId, { chunks: [file, end] })).toMatchObject({ status: 422 })
    expect(await post(lotId, { chunks: [file, key, end] })).toMatchObject({ status: 303 })
  })

  test('pasted and refused is shown again, unless it is long', async () => {
    const lotId = await drawnLot(db, three)
    const pasted = (rows: number) => `${heading}\n${`999,1,1,pass,pass,MARK\n`.repeat(rows)}`
    const chunks = (rows: number) => [field('key', randomUUID()), field('text', pasted(rows)), END]
    expect((await post(lotId, { chunks: chunks(3) })).page).toContain('MARK')
    expect((await post(lotId, { chunks: chunks(5000) })).page).not.toContain('MARK')
  })

  test('may be sent again after the lot went on, as its answer may have been lost; another may not', async () => {
    const lotId = await drawnLot(db, three)
    const key = randomUUID()
    const file = `${heading}\n${(await toTest(db, lotId)).map(rowFor).join('\n')}`
    expect(await post(lotId, { chunks: form(file, key) })).toMatchObject({ status: 303 })
    await withdrawLot(db, three.manager, lotId, { version: (await factsOf(db, lotId)).version, reason: 'x' })
    expect(await post(lotId, { chunks: form(file, key) })).toMatchObject({ status: 303 })
    expect(await post(lotId, { chunks: form(file) })).toMatchObject({ status: 409 })
  })

  test.each([
    { name: 'without an end', chunks: form(heading).slice(0, 2) },
    { name: 'cut within the file', chunks: [field('key', randomUUID()), `--${BOUNDARY}\r\nContent-Disp`] },
    { name: 'of nothing', chunks: [] },
    { name: 'without a boundary', chunks: form(heading), type: 'multipart/form-data' },
    {
      name: 'with an endless boundary',
      chunks: form(heading),
      type: `multipart/form-data; boundary=${'a'.repeat(300)}`,
    },
  ])('in a form $name is an unreadable form, no fault', async ({ chunks, type }) => {
    const lotId = await drawnLot(db, three)
    expect((await post(lotId, { chunks, ...(type ? { type } : {}) })).status).toBe(400)
  })

  test('in a form of a thousand fields is refused, not read without end', async () => {
    const lotId = await drawnLot(db, three)
    const chunks = [...Array(1000).fill(field('a', 'b')), ...form(heading)]
    expect((await post(lotId, { chunks })).status).toBe(422)
  })
})
