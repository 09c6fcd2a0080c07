// What a sample proves of the process behind the lot: the exact bounds, and under a fold the intervals that are nearly so.
import type { ProofQuestion } from '../../app/advisor/proof-question.ts'
import type { OtherInterval, Proof } from '../../app/advisor/prove.ts'
import { confidenceOf, percentAtLeast, percentAtMost, perThousandAtMost, riskOfHundred } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { DataTable } from '../table.tsx'
import { processMethod } from './proof-words.ts'

export function ProcessSection({ question, proof }: { question: ProofQuestion; proof: Proof }) {
  const { confidence } = question
  const { fraction, interval, others } = proof
  const sided = `${confidenceOf(confidence)} confidence, one-sided`
  return (
    <>
      <Facts>
        <Fact name="Fraction nonconforming, at most">
          {percentAtMost(fraction.atMost)}, or {perThousandAtMost(fraction.atMost)} <small>{sided}</small>
        </Fact>
        <Fact name="Fraction nonconforming, at least">
          {percentAtLeast(fraction.atLeast)} <small>{sided}</small>
        </Fact>
        <Fact name="Fraction nonconforming, between">
          {percentAtLeast(interval.lower)} and {percentAtMost(interval.upper)}{' '}
          <small>{confidenceOf(confidence)} confidence, two-sided</small>
        </Fact>
      </Facts>
      <p>
        The one-sided bound and the two-sided interval differ by design: the bound puts the whole risk of{' '}
        {riskOfHundred(confidence)} in 100 on one side, the interval half of it on each, so it is wider. Say “no worse
        than” with the bound, “between” with the interval.
      </p>
      <p>{processMethod(question)}</p>
      {others.length > 0 && <Others others={others} confidence={confidence} />}
    </>
  )
}

const methods: Record<OtherInterval['method'], { name: string; source: string }> = {
  'mid-p': { name: 'Mid-P', source: 'Lancaster 1961: the count found weighs half' },
  wilson: { name: 'Wilson (score)', source: 'Wilson 1927, without continuity correction' },
  jeffreys: { name: 'Jeffreys', source: 'Brown, Cai and DasGupta 2001: beta prior ½, ½' },
}

function Others({ others, confidence }: { others: OtherInterval[]; confidence: number }) {
  return (
    <details>
      <summary>The same interval by other methods</summary>
      <DataTable
        caption={`Fraction nonconforming of the process, ${confidenceOf(confidence)}, two-sided. These are narrower on average, but for some fractions they cover less often than they say; the exact one above never does.`}
        columns={[{ head: 'Method' }, { head: 'From' }, { head: 'To' }, { head: 'Source' }]}
        rows={others.map(({ method, lower, upper }) => ({
          cells: [methods[method].name, percentAtLeast(lower), percentAtMost(upper), methods[method].source],
        }))}
      />
    </details>
  )
}
