// What is typed into the open pages: read in decimal, or refused by the field's name.
import { describe, expect, test } from 'vitest'
import { proofFields, proofQuestionFrom } from '../../app/advisor/proof-question.ts'
import { questionFields, questionFrom } from '../../app/advisor/question.ts'

const read = (typed: Record<string, string>) => questionFrom(questionFields.parse(typed))

function question(typed: Record<string, string>) {
  const reading = read(typed)
  if (reading.kind !== 'question') throw new Error(JSON.stringify(reading.causes))
  return reading.question
}

function wrong(typed: Record<string, string>): string[] {
  const reading = read(typed)
  return reading.kind === 'refused' ? Object.keys(reading.causes) : []
}

describe('the question of the advisor', () => {
  test('has what is usual where nothing was typed', () => {
    expect(question({ lot: '480', limit: '5' })).toEqual({
      lotSize: 480,
      tooMany: 5,
      confidence: 0.95,
      good: { nonconforming: 1, risk: 0.05, demanded: false },
      today: { kind: 'percentage', percent: '10', sampleSize: 48 },
      own: undefined,
      standard: undefined,
      effort: { cordsAnHour: 30, testCents: 150, escapeCents: undefined },
    })
  })

  test('takes what is done today as a share, as a plan, or as nothing', () => {
    expect(question({ lot: '480', limit: '5', percent: '50/1' }).today).toEqual({
      kind: 'plan',
      sampleSize: 50,
      acceptanceNumber: 1,
    })
    expect(question({ lot: '480', limit: '5', percent: '' }).today).toEqual({ kind: 'nothing' })
    expect(question({ lot: '480', limit: '5', percent: '10' }).today).toMatchObject({ percent: '10' })
  })

  // by hand: 0.9 % of 480 is 4.32, and lots of at most 4 are meant; 0.2 % of 100 is 0.2, and lots with none
  test.each([
    { lot: '480', limit: '1%', good: '0.9%', nonconforming: 4 },
    { lot: '100', limit: '3%', good: '0.2%', nonconforming: 0 },
    { lot: '480', limit: '5', good: '0,5%', nonconforming: 2 },
    { lot: '480', limit: '5', good: '0', nonconforming: 0 },
  ])('rounds a good share of $good of $lot down', ({ nonconforming, ...typed }) => {
    expect(question(typed)).toMatchObject({ good: { nonconforming, demanded: true } })
  })

  test('takes every field', () => {
    const typed = {
      lot: '480',
      limit: '6',
      confidence: '97,5',
      good: '2',
      goodrisk: '1',
      percent: '12.5',
      own: '50 / 1',
      aql: '1',
      level: 's-4',
      severity: 'Tightened',
      rate: '25',
      test: '1,20',
      escape: '60',
    }
    expect(question(typed)).toEqual({
      lotSize: 480,
      tooMany: 6,
      confidence: 0.975,
      good: { nonconforming: 2, risk: 0.01, demanded: true },
      today: { kind: 'percentage', percent: '12.5', sampleSize: 60 },
      own: { sampleSize: 50, acceptanceNumber: 1 },
      standard: { acceptanceQualityLimit: '1.0', level: 'S-4', inspection: 'tightened' },
      effort: { cordsAnHour: 25, testCents: 120, escapeCents: 6000 },
    })
  })

  // Source: arithmetic in decimal. In binary 0.29 × 1000 is 290.00000000000006 and 0.07 × 100 is 7.000000000000001.
  test.each([
    ['1000', '29%', 290],
    ['100', '7 %', 7],
    ['480', '1%', 5],
    ['480', '0,5%', 3],
    ['480', '100%', 480],
    ['1000000', '0.0001%', 1],
    ['1000000', '33.3333%', 333_333],
    ['1000000', '33.33331%', 333_334],
  ])('of a lot of %s makes %s too many %i cords, rounded up in decimal', (lot, limit, cords) => {
    expect(question({ lot, limit }).tooMany).toBe(cords)
  })

  test.each([
    ['1000', '29', 290],
    ['100', '7', 7],
    ['481', '10', 49],
    ['1000', '0.01', 1],
    ['480', '100 %', 480],
  ])('of a lot of %s tests %s percent: %i cords', (lot, percent, cords) => {
    expect(question({ lot, limit: '1', percent }).today).toMatchObject({ kind: 'percentage', sampleSize: cords })
  })

  // Source: the decimal fraction itself. 99.9 / 100 in binary happens to be another number than 0.999 for some inputs (57.7 / 100).
  test.each([
    ['99.9', 0.999],
    ['57.7', 0.577],
    ['0.1', 0.001],
  ])('takes %s of 100 as the nearest number to %d', (confidence, fraction) => {
    expect(question({ lot: '480', limit: '5', confidence }).confidence).toBe(fraction)
  })

  test('spares lots without any where one is too many', () => {
    expect(question({ lot: '480', limit: '1' }).good).toEqual({ nonconforming: 0, risk: 0.05, demanded: false })
    expect(question({ lot: '480', limit: '1', good: '0' }).good.demanded).toBe(true)
  })

  const whole = { lot: '480', limit: '5' }
  test.each([
    ['lot', { ...whole, lot: '0' }],
    ['lot', { ...whole, lot: '1000001' }],
    ['lot', { ...whole, lot: '1e9' }],
    ['lot', { ...whole, lot: '-480' }],
    ['lot', { ...whole, lot: '480.5' }],
    ['lot', { ...whole, lot: 'NaN' }],
    ['lot', { ...whole, lot: '' }],
    ['limit', { ...whole, limit: '' }],
    ['limit', { ...whole, limit: '0' }],
    ['limit', { ...whole, limit: '481' }],
    ['limit', { ...whole, limit: '101%' }],
    ['limit', { ...whole, limit: '0%' }],
    ['limit', { ...whole, limit: '4.5' }],
    ['limit', { ...whole, limit: 'many' }],
    ['confidence', { ...whole, confidence: '0' }],
    ['confidence', { ...whole, confidence: '100' }],
    ['confidence', { ...whole, confidence: '-5' }],
    ['confidence', { ...whole, confidence: 'sure' }],
    ['good', { ...whole, good: '5' }],
    ['good', { ...whole, good: '-1' }],
    ['good', { ...whole, good: 'few' }],
    ['goodrisk', { ...whole, goodrisk: '100' }],
    ['percent', { ...whole, percent: '0' }],
    ['percent', { ...whole, percent: '101' }],
    ['percent', { ...whole, percent: 'a tenth' }],
    ['percent', { ...whole, percent: '481/1' }],
    ['percent', { ...whole, percent: '50/50' }],
    ['own', { ...whole, own: '50' }],
    ['own', { ...whole, own: '481/1' }],
    ['own', { ...whole, own: '0/0' }],
    ['own', { ...whole, own: '50/50' }],
    ['own', { ...whole, own: '50/-1' }],
    ['aql', { ...whole, aql: '3' }],
    ['level', { ...whole, aql: '1.0', level: 'IV' }],
    ['severity', { ...whole, aql: '1.0', severity: 'strict' }],
  ])('names %s alone as wrong in %o', (field, typed) => {
    expect(wrong(typed)).toEqual([field])
  })

  test('names all that is wrong at once', () => {
    expect(wrong({ lot: 'x', limit: 'y', own: 'z' }).sort()).toEqual(['limit', 'lot', 'own'])
  })
})

describe('the question of the proof', () => {
  const readProof = (typed: Record<string, string>) => proofQuestionFrom(proofFields.parse(typed))

  test('claims one cord in a hundred, rounded up, where no claim was typed', () => {
    expect(readProof({ lot: '480', tested: '48', found: '0' })).toEqual({
      kind: 'question',
      question: { lotSize: 480, tested: 48, found: 0, confidence: 0.95, claim: 5, taken: { kind: 'fixed' } },
    })
  })

  const whole = { lot: '480', tested: '48', found: '0' }
  test.each([
    ['lot', { ...whole, lot: '1000000000' }],
    ['tested', { ...whole, tested: '481' }],
    ['tested', { ...whole, tested: '' }],
    ['found', { ...whole, found: '49' }],
    ['found', { ...whole, found: '-1' }],
    ['found', { ...whole, found: '' }],
    ['confidence', { ...whole, confidence: '100' }],
    ['confidence', { ...whole, confidence: '49' }],
    ['claim', { ...whole, claim: '0' }],
    ['claim', { ...whole, claim: '481' }],
  ])('names %s alone as wrong in %o', (field, typed) => {
    const reading = readProof(typed)
    expect(reading.kind === 'refused' && Object.keys(reading.causes)).toEqual([field])
  })
})
