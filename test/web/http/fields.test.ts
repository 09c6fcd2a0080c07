// What typed text may hold, and what is said where it may not.
import { describe, expect, test } from 'vitest'
import type { z } from 'zod'
import { longText, optionalText, text } from '../../../app/kit/fields.ts'
import { announcementForm } from '../../../app/web/forms/lots.ts'

const problems = (schema: z.ZodType, typed: unknown) =>
  schema.safeParse(typed).error?.issues.map((issue) => issue.message) ?? []

describe('a character that nobody can see', () => {
  test.each([
    ['a zero', 'P\u00007', 'zero character'],
    ['a bell', 'P\u00077', 'control character'],
    ['a line end', 'P\n7', 'control character or a line end'],
    ['a right-to-left override', 'P\u202e7', 'turns the reading direction'],
    ['a zero-width space', 'P\u200b7', 'without width'],
    ['half of a pair', 'P\ud8007', 'broken character'],
  ])('%s is refused in a line of text with the reason', (_name, typed, reason) => {
    for (const schema of [text('Type it', 60), optionalText(60)]) {
      const said = problems(schema, typed)
      expect(said).toHaveLength(1)
      expect(said[0]).toContain(reason)
    }
  })

  test('is none where it is a line end of a reason', () => {
    expect(problems(longText('Say why', 60), 'first\r\nsecond')).toEqual([])
    expect(problems(longText('Say why', 60), 'first\u200bsecond')[0]).toContain('without width')
  })
})

test('marks of a lot are read so', () => {
  const form = { key: crypto.randomUUID(), supplierId: '1', itemId: '1', size: '10', cartons: '1', cordsInCarton: '10' }
  const read = announcementForm.safeParse({ ...form, productionMark: 'M\u202e1', purchaseOrder: 'P\u00001' })
  expect(read.error?.issues.map(({ path }) => path[0])).toEqual(['productionMark', 'purchaseOrder'])
})
