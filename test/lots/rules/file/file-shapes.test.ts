// Results files as spreadsheets and testers really write them, and how much of a bad one is read.
import { Readable } from 'node:stream'
import { text } from 'node:stream/consumers'
import { describe, expect, test } from 'vitest'
import { decoded } from '../../../../app/lots/rules/file/decoded.ts'
import { readResultsFile } from '../../../../app/lots/rules/results-file.ts'
import { rowAloud } from '../../../support/refusals.ts'

const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
const lot = {
  size: 1000,
  terms: { marginalPolicy: 'strict', crosstalkAccuracy: '1.2', returnLossAccuracy: '1.5' },
} as const

async function* chunksOf(bytes: Uint8Array, length = 7) {
  for (let from = 0; from < bytes.length; from += length) yield bytes.subarray(from, from + length)
}

async function read(bytes: Uint8Array | string, size: number = lot.size) {
  const { count, parts, bad } = await readResultsFile(chunksOf(Buffer.from(bytes)), { ...lot, size })
  return {
    count,
    text: parts.map(({ rows }) => rows).join(),
    named: bad.named.map(rowAloud),
    inAll: bad.inAll,
    stopped: bad.stopped,
  }
}

const clean = { named: [], inAll: 0, stopped: undefined }

describe('a results file may', () => {
  test.each([
    { name: 'begin with sep=;', text: `sep=;\r\n${heading.replaceAll(',', ';')}\r\n7;1,5;2;pass;pass;T\r\n` },
    { name: 'begin with empty lines', text: `\n;;;;;\n${heading.replaceAll(',', ';')}\n7;1,5;2;pass;pass;T` },
    { name: 'end its lines with a carriage return', text: `${heading}\r7,1.5,2,pass,pass,T\r` },
    { name: 'name the unit', text: `${heading.replaceAll(' margin', ' margin (dB)')}\n7,1.5,2,pass,pass,T` },
    {
      name: 'name the unit in square brackets',
      text: `${heading.replaceAll(' margin', '_margin [dB]')}\n7,1.5,2,pass,pass,T`,
    },
    { name: 'end every line with the delimiter', text: `${heading},\n7,1.5,2,pass,pass,T,\n` },
    { name: 'quote its heading', text: `"${heading.replaceAll(',', '";"')}"\n7;"1,5";2;pass;pass;"T"` },
    { name: 'end with empty rows', text: `${heading}\n7,1.5,2,pass,pass,T\n,,,,,\n,,,,,\n` },
  ])('$name', async ({ text }) => {
    expect(await read(text)).toEqual({
      count: 1,
      text: expect.stringMatching(/^\[\[7,"1\.5","2",.*"T"\]\]$/),
      ...clean,
    })
  })

  test('count its lines from the first, whatever they are', async () => {
    const { named } = await read(
      `\r\nsep=,\r\n${heading}\r\n\r\nx,1,1,pass,pass,T\r\n1,1,1,pass,pass,"T\r\nU"\r\ny,1,1,pass,pass,T`,
    )
    expect(named.map(({ line }) => line)).toEqual([5, 6, 8])
  })
})

describe('its text is read from', () => {
  const sent = `${heading}\n7,1.5,\u22122,pass,pass,Pr\u00fcfger\u00e4t\n`
  const western = Buffer.from(sent.replace('\u2212', '\u0013'), 'latin1')
  western[western.indexOf(0x13)] = 0x96 // the dash, where Windows-1252 has it

  test.each([
    { name: 'UTF-8', bytes: Buffer.from(sent) },
    { name: 'UTF-8 with its mark', bytes: Buffer.from(`\uFEFF${sent}`) },
    { name: 'UTF-16, low byte first, with its mark', bytes: Buffer.from(`\uFEFF${sent}`, 'utf16le') },
    { name: 'UTF-16, low byte first', bytes: Buffer.from(sent, 'utf16le') },
    { name: 'UTF-16, high byte first, with its mark', bytes: Buffer.from(`\uFEFF${sent}`, 'utf16le').swap16() },
    { name: 'UTF-16, high byte first', bytes: Buffer.from(sent, 'utf16le').swap16() },
    { name: 'Windows-1252', bytes: western },
  ])('$name, however it is cut', async ({ bytes }) => {
    for (const length of [1, 2, 3, 64, 65_536]) {
      const { parts } = await readResultsFile(chunksOf(bytes, length), lot)
      expect(parts.map(({ rows }) => rows).join()).toContain('[7,"1.5","-2",')
      expect(parts.map(({ rows }) => rows).join()).toContain('"Pr\u00fcfger\u00e4t"')
    }
  })

  test.each([[''], ['a'], ['ab\u00e9'], ['\u20ac'], ['\u{1F50C}']])(
    '“%s”, with nothing lost at the end',
    async (short) => {
      expect(await text(Readable.from(decoded(chunksOf(Buffer.from(short), 1))))).toBe(short)
    },
  )

  test('UTF-8 that breaks off further down, whose row is bad, as nothing is guessed', async () => {
    const bytes = Buffer.concat([
      Buffer.from(`${heading}\n7,1,1,pass,pass,\u00fc\n8,1,1,pass,pass,`),
      Buffer.from([0xfc, 0x0a]),
    ])
    expect(await read(bytes)).toMatchObject({
      count: 1,
      named: [{ line: 3, reason: expect.stringContaining('UTF-8') }],
    })
  })
})

describe('a row is bad', () => {
  test.each([
    ['T\u0000X', 'The tester serial holds a zero character'],
    ['T\u001bX', 'control character'],
    ['"T\nX"', 'control character or a line end'],
    ['T\u200bX', 'without width'],
    ['\u200b', 'without width'],
    ['T\ufeff', 'without width'],
    ['T\u202eX', 'reading direction'],
    ['T\u2028X', 'control character'],
    ['T\ufffdX', 'cannot be read'],
  ])('for a character that nobody sees: %j', async (serial, says) => {
    const { count, named } = await read(`${heading}\n7,1,1,pass,pass,${serial}\n8,1,1,pass,pass,T\n`)
    expect(count).toBe(1)
    expect(named).toEqual([{ line: 2, reason: expect.stringContaining(says) }])
  })

  test('and what it says of its cells holds no such character either', async () => {
    const { named } = await read(`${heading}\n7,1,1,pass,per\u202ehaps,T\n8,1,1,pass,maybe,T`)
    expect(named.map(({ reason }) => reason).join()).not.toMatch(/[\p{C}]/u)
  })

  test.each(['-0.0', '\u22120', '\u20130,00'])(
    'where a cord falls short by nothing, as at the bench: %s',
    async (margin) => {
      const { count, named } = await read(`${heading}\n7,1,"${margin}",pass,pass,T`)
      expect(count).toBe(0)
      expect(named).toEqual([{ line: 2, reason: expect.stringContaining('more than 0 dB') }])
    },
  )
})

describe('of a file that is none', () => {
  /** 15 MiB in chunks, and how many of them were asked for. */
  function counted(text: string, above = `${heading}\n`) {
    const whole = Buffer.from(above + text.repeat(Math.ceil((15 * 1024 * 1024) / Buffer.byteLength(text))))
    const asked = { chunks: 0 }
    async function* bytes() {
      for await (const chunk of chunksOf(whole, 65_536)) {
        asked.chunks += 1
        yield chunk
      }
    }
    return { asked, bytes: bytes() }
  }

  test.each([
    { name: 'one cell of 15 MiB', text: 'x', line: 2, says: 'longer than 1000 characters' },
    { name: '15 million commas in the heading', text: ',', above: '', line: 1, says: 'longer than 1000 characters' },
    {
      name: 'an unclosed quotation mark',
      text: '1,1,1,pass,pass,T\n',
      above: `${heading}\n1,1,1,pass,pass,"T`,
      line: 2,
      says: 'quotation mark',
    },
    { name: 'millions of short lines', text: 'x,y\n', line: 1002, says: 'The lot has 1000 cords' },
    { name: 'millions of rows without anything', text: ',,,,,\n', line: 100_002, says: 'rows are empty' },
    { name: 'zero characters', text: '\0', above: '', line: 1, says: 'longer than' },
  ])('only the beginning is read: $name', async ({ text, above, line, says }) => {
    const { asked, bytes } = counted(text, above)
    const { bad } = await readResultsFile(bytes, lot)
    expect(bad.stopped && rowAloud(bad.stopped)).toEqual({ line, reason: expect.stringContaining(says) })
    expect(asked.chunks).toBeLessThan(12) // of 240
  })

  test('the first 200 bad rows are named and all are counted, however many rows can be read', async () => {
    const { bad, count, parts } = await readResultsFile(counted('x,y\n').bytes, { ...lot, size: 1_000_000 })
    expect(bad.named).toHaveLength(200)
    expect(bad.inAll).toBe(1_000_001) // and the row that is one too many
    expect({ count, parts }).toEqual({ count: 0, parts: [] })
  })

  test('others are served between any two pieces of it', async () => {
    let turns = 0
    let reading = true
    const count = () => {
      turns += 1
      if (reading) setImmediate(count)
    }
    setImmediate(count)
    const text = `${heading}\n${'x,y\n'.repeat(25_000)}` // 100 pieces of a thousand characters
    await Promise.all(
      [1, 2].map(() => readResultsFile(chunksOf(Buffer.from(text), 65_536), { ...lot, size: 1_000_000 })),
    )
    reading = false
    expect(turns).toBeGreaterThan(200) // two files at once take a turn each, not one together
  })
})
