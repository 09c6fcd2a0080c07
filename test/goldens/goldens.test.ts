// Runs every golden case kept beside this file; each file names the source of its values.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type Arguments, functions } from './functions.ts'

type Value = number | string | boolean | null | { [field: string]: Value }
type Case = { fn: string; args: Arguments; value: Value; within: number }

const folder = new URL('.', import.meta.url)

for (const name of readdirSync(folder).filter((entry) => entry.endsWith('.json'))) {
  const file: { source: string; cases: Case[] } = JSON.parse(readFileSync(new URL(name, folder), 'utf8'))
  describe(`${name}, by ${file.source}`, () => {
    test.each(file.cases.map((each, i) => ({ ...each, i })))('$i $fn', ({ fn, args, value, within }) => {
      const evaluate = functions[fn]
      if (!evaluate) throw new Error(`The contract's ${fn} has no function of the engine yet`)
      compare(evaluate(args), value, within, `${fn} ${JSON.stringify(args).slice(0, 400)}`)
    })
  })
}

/** Relative tolerance; absolute where the value is 0; field by field; exactly equal where the tolerance is 0. */
function compare(actual: unknown, value: Value, within: number, where: string): void {
  if (typeof value === 'object' && value !== null) {
    const fields = new Map(Object.entries(actual ?? {}))
    for (const [field, part] of Object.entries(value)) compare(fields.get(field), part, within, `${where} → ${field}`)
  } else if (typeof value === 'number' && typeof actual === 'number' && within > 0) {
    const error = Math.abs(actual - value) / (value === 0 ? 1 : Math.abs(value))
    expect(error <= within, `${where}: ${actual} is off from ${value} by ${error}, more than ${within}`).toBe(true)
  } else {
    expect(actual, where).toBe(value)
  }
}
