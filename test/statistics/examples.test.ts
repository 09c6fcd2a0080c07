// The examples in the engine's doc blocks are run: every number that an answer prints is in the result, to the digits printed.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'

const folder = join(projectRoot, 'app/statistics')
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts'))

type Example = { file: string; expression: string; answer: string }

const examples = files.flatMap((file) => examplesIn(file, readFileSync(join(folder, file), 'utf8')))

/** Everything that the engine exports, by name; of names that two files have, the file's own comes first. */
const modules = new Map<string, Record<string, unknown>>()
for (const file of files) modules.set(file, await import(join(folder, file)))

function examplesIn(file: string, text: string): Example[] {
  return [...text.matchAll(/\* @example ([\s\S]*?)\n \*(?:\/|\n| @)/g)].map(([, block = '']) => {
    const [expression = '', ...answer] = block.replace(/\n \*\s*/g, ' ').split(' // ')
    return { file, expression, answer: answer.join(' // ') }
  })
}

function resultOf({ file, expression }: Example): unknown {
  const known = Object.assign({}, ...modules.values(), modules.get(file))
  return new Function(...Object.keys(known), `return ${expression}`)(...Object.values(known))
}

/** Every number in a result, however deep. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  if (typeof value === 'bigint') return [Number(value)]
  if (typeof value === 'string') return [...value.matchAll(/-?\d+(\.\d+)?/g)].map(([digits]) => Number(digits))
  if (typeof value === 'object' && value !== null)
    return (ArrayBuffer.isView(value) ? [...(value as Float64Array)] : Object.values(value)).flatMap(numbersIn)
  return []
}

/** The numbers that an answer prints before it explains itself, each with half a unit of its last digit. */
function printedIn(answer: string): { value: number; half: number }[] {
  const said = answer.startsWith('{') ? answer : (answer.split(/[:;]/)[0] ?? '')
  return [...said.matchAll(/(?<![\w.])[-−]?(?:0x[\da-f]+|\d+(?:\.(\d+))?(?:e-?\d+)?)/g)].map(
    ([digits, decimals = '']) => {
      const value = Number(digits.replace('−', '-'))
      const power = Number(/e(-?\d+)/.exec(digits)?.[1] ?? 0)
      return { value, half: digits.startsWith('0x') ? 0 : 0.5 * 10 ** (power - decimals.length) * (1 + 1e-9) }
    },
  )
}

describe('the examples of the engine', () => {
  test('are many, and each prints a number', () => {
    expect(examples.length).toBeGreaterThan(90)
    expect(examples.filter(({ answer }) => printedIn(answer).length === 0 && !/^('|true|false)/.test(answer))).toEqual(
      [],
    )
  })

  test.each(examples)('$file: $expression', (example) => {
    const result = resultOf(example)
    if (typeof result === 'string') return expect(`'${result}'`).toBe(example.answer)
    if (typeof result === 'boolean') return expect(example.answer).toMatch(new RegExp(`^${result}\\b`))
    const found = numbersIn(result)
    const missing = printedIn(example.answer).filter(
      ({ value, half }) =>
        !found.some((each) => Math.abs(each - value) <= half || Math.abs(100 * each - value) <= half),
    )
    expect({ answer: example.answer, missing, found: missing.length ? found.slice(0, 12) : [] }).toEqual({
      answer: example.answer,
      missing: [],
      found: [],
    })
  })
})
