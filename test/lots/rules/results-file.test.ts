// Reading a tester's results from a file, by the description in docs/results-file.md.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { type ResultsFile, readResultsFile } from '../../../app/lots/rules/results-file.ts'
import { rowAloud } from '../../support/refusals.ts'

const heading = 'position,crosstalk margin,return loss margin,wire map,visual,tester serial'
const file = (...rows: string[]) => [heading, ...rows, ''].join('\n')
const clear = { wireMap: 'in-order', visual: 'in-order' } as const

const lot = {
  size: 1_000_000,
  terms: { marginalPolicy: 'strict', crosstalkAccuracy: '1.2', returnLossAccuracy: '1.5' },
} as const

const packed = z.array(
  z.tuple([
    z.number(),
    z.string().nullable(),
    z.string().nullable(),
    z.string(),
    z.string(),
    z.string(),
    z.boolean(),
    z.string().nullable(),
    z.string().nullable(),
    z.string().nullable(),
  ]),
)

/** What the file's rows are recorded as, and all that is said of the others. */
async function read(sent: string | Uint8Array, atMost = lot.size) {
  const file = await readResultsFile(chunksOf(Buffer.from(sent)), { ...lot, size: atMost })
  const rows = file.parts.flatMap((part) => packed.parse(JSON.parse(part.rows))).map(unpacked(file))
  const bad = [...file.bad.named, ...(file.bad.stopped ? [file.bad.stopped] : [])].map(rowAloud)
  expect(rows).toHaveLength(file.count)
  return { rows, bad, inAll: file.bad.inAll, sha256: file.sha256 }
}

/** In chunks that cut lines and characters anywhere. */
async function* chunksOf(bytes: Uint8Array) {
  for (let from = 0; from < bytes.length; from += 1021) yield bytes.subarray(from, from + 1021)
}

function unpacked({ lines }: ResultsFile) {
  return ([position, crosstalkMargin, returnLossMargin, wireMap, visual, state, nonconforming, ...marks]: z.infer<
    typeof packed
  >[number]) => {
    const [carton, spool, testerSerial] = marks
    const entry = { crosstalkMargin, returnLossMargin, wireMap, visual, carton, spool, testerSerial }
    return { line: lines[position], position, entry, state, nonconforming }
  }
}

describe('a results file', () => {
  test('gives each row with its line and every digit of its margins', async () => {
    const { rows, bad } = await read(file('12,1.70,+2.4,in order,in order,AT-1', '', '3,-0.04,0,pass,Pass,'))
    expect(bad).toEqual([])
    expect(rows).toMatchObject([
      {
        line: 2,
        position: 12,
        entry: { ...clear, crosstalkMargin: '1.70', returnLossMargin: '2.4', testerSerial: 'AT-1' },
      },
      { line: 4, position: 3, entry: { ...clear, crosstalkMargin: '-0.04', returnLossMargin: '0' } },
    ])
    expect(rows[1]?.entry).toHaveProperty('testerSerial', null)
  })

  test.each([
    {
      name: 'semicolons and decimal commas',
      text: `\uFEFF${heading.replaceAll(',', ';')}\r\n7;1,5;−0,3;pass;fail;T\r\n`,
    },
    { name: 'tabs and decimal commas', text: `${heading.replaceAll(',', '\t')}\n7\t1,5\t-0,3\tpass\tfail\tT\n` },
    { name: 'commas and quoted decimal commas', text: file('7,"1,5","-0,3",pass,fail,T') },
    {
      name: 'columns in another order, spelled with capitals',
      text: 'Visual,Wire Map,POSITION,Return-Loss Margin,crosstalk_margin,Tester serial\nfail,pass,7,-0.3,1.5,T',
    },
  ])('may come with $name', async ({ text }) => {
    const entry = {
      crosstalkMargin: '1.5',
      returnLossMargin: '-0.3',
      wireMap: 'in-order',
      visual: 'at-fault',
      testerSerial: 'T',
    }
    expect(await read(text)).toMatchObject({ rows: [{ line: 2, position: 7, entry }], bad: [] })
  })

  test('may say carton and spool', async () => {
    const text = `${heading},carton,spool\n7,1,2,pass,pass,T,C 4,S-9`
    expect((await read(text)).rows[0]?.entry).toMatchObject({ carton: 'C 4', spool: 'S-9' })
  })

  test('needs no margins where wire map or visual is at fault, and needs both otherwise', async () => {
    const { rows, bad } = await read(
      file('1,,,at fault,in order,', '2,,,in order,at fault,', '3,,1,in order,in order,', '4,1,,pass,pass,'),
    )
    expect(rows.map((row) => row.position)).toEqual([1, 2])
    expect(bad.map((row) => row.line)).toEqual([4, 5])
    expect(bad[0]?.reason).toContain('crosstalk')
    expect(bad[1]?.reason).toContain('return loss')
  })

  test.each([
    { row: 'x,1,1,pass,pass,', says: 'position' },
    { row: '0,1,1,pass,pass,', says: 'position' },
    { row: '1.5,1,1,pass,pass,', says: 'position' },
    { row: '9,NaN,1,pass,pass,', says: 'crosstalk margin "NaN"' },
    { row: '9,1,1e3,pass,pass,', says: 'return loss margin "1e3"' },
    { row: '9,1,1.2.3,pass,pass,', says: 'return loss margin' },
    { row: '9,-200,1,pass,pass,', says: 'between −100 and 100' },
    { row: '9,1,1,,pass,', says: 'wire map' },
    { row: '9,1,1,pass,perhaps,', says: 'visual' },
    { row: '9,1,1,pass', says: '4 columns' },
    { row: '9,1,5,1,pass,pass,T', says: '7 columns' },
    { row: '9,1,1,pass,pass,"T', says: 'quotation mark' },
    { row: `9,1,1,pass,pass,${'T'.repeat(61)}`, says: '60 characters' },
  ])('names the row “$row” with its line and reason', async ({ row, says }) => {
    const { rows, bad } = await read(file('8,1,1,pass,pass,', row))
    expect(rows.map((each) => each.position)).toEqual([8])
    expect(bad).toHaveLength(1)
    expect(bad[0]?.line).toBe(3)
    expect(bad[0]?.reason).toContain(says)
  })

  test('names every bad row at once, and every reason of a row', async () => {
    const { bad } = await read(file('x,y,1,pass,pass,', '4,1,1,pass,pass,', '5,1,1,,,'))
    expect(bad.map((row) => row.line)).toEqual([2, 4])
    expect(bad[0]?.reason).toMatch(/position.*crosstalk/)
    expect(bad[1]?.reason).toMatch(/wire map.*visual/)
  })

  test('names a cord that stands in it twice, with both lines', async () => {
    const { rows, bad } = await read(file('4,1,1,pass,pass,', '5,1,1,pass,pass,', '4,-1,1,pass,pass,'))
    expect(rows.map((row) => row.position)).toEqual([4, 5])
    expect(bad).toEqual([{ line: 4, reason: 'Cord 4 stands in line 2 of this file too' }])
  })

  test.each([
    { name: 'nothing', text: '', line: 1, says: 'missing: position' },
    { name: 'a heading alone', text: heading, line: 0, says: 'no rows' },
    {
      name: 'a heading without the visual',
      text: 'position,crosstalk margin,return loss margin,wire map,tester serial\n1,1,1,pass,T',
      line: 1,
      says: 'missing: visual',
    },
    { name: 'a column nobody knows', text: `${heading},colour\n1,1,1,pass,pass,T,red`, line: 1, says: 'colour' },
    { name: 'a column twice', text: `${heading},visual\n1,1,1,pass,pass,T,pass`, line: 1, says: 'twice' },
    { name: 'a table of something else', text: '<html><body>1</body></html>', line: 1, says: 'missing' },
  ])('with $name is refused', async ({ text, line, says }) => {
    const { rows, bad } = await read(text)
    expect(rows).toEqual([])
    expect(bad).toHaveLength(1)
    expect(bad[0]?.line).toBe(line)
    expect(bad[0]?.reason).toContain(says)
  })
})
