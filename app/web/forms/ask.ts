// The address of an open page: a question that can be answered, one that needs correcting, or none, and then the example's.
import type { Context } from 'hono'
import type { z } from 'zod'
import { sentencesOf } from '../../../views/words/refusals.ts'
import type { QuestionReading } from '../../advisor/typed.ts'
import type { Problems } from '../../kit/problems.ts'
import type { Env } from '../http/env.ts'
import { readQuery } from '../http/read.ts'

type Texts = Record<string, string>

/** `asked`: the texts to show in the form; `example`: nobody asked, and the question is the usual example's. */
export type Asked<T, Q> =
  | { kind: 'problems'; asked: T; problems: Problems }
  | { kind: 'question'; asked: T; question: Q; example: boolean }

/** Without any field of the form in the address the example's question stands there, to be changed. */
export function ask<T extends Texts, Q>(
  c: Context<Env>,
  fields: z.ZodObject & z.ZodType<T>,
  from: (asked: T) => QuestionReading<Q>,
  exampleTexts: Partial<T>,
): Asked<T, Q> {
  const unasked = fields.parse({})
  const example = !Object.keys(fields.shape).some((name) => c.req.query(name) !== undefined)
  const read = example ? exampleOf(fields, exampleTexts) : readQuery(c, fields)
  if (read.kind === 'unreadable')
    return { kind: 'problems', asked: { ...unasked, ...read.typed }, problems: read.problems }
  const asked = read.value
  const reading = from(asked)
  if (reading.kind === 'refused') return { kind: 'problems', asked, problems: sentencesOf(reading.causes) }
  return { ...reading, asked, example }
}

function exampleOf<T extends Texts>(fields: z.ZodObject & z.ZodType<T>, texts: Partial<T>) {
  return { kind: 'read' as const, value: fields.parse(texts) }
}
