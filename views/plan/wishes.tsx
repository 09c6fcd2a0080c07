// What the buyer may say beside the item's terms; the address holds it.

import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems } from '../../app/kit/problems.ts'
import type { AfterRejection } from '../../app/statistics/economics/costs.ts'
import { Blank, BlankProblem, ChoiceField } from '../form.tsx'
import { rejectionWords } from '../items/terms.tsx'

type Props = {
  lotId: number
  asked: AdviceText
  /** what the item says of a rejected lot */
  after: AfterRejection | undefined
  problems: Problems
}

const gaps = ['good', 'goodrisk', 'percent', 'own', 'mean', 'worth'] as const

export function Wishes({ lotId, asked, after, problems }: Props) {
  const path = `/lots/${lotId}/plan`
  const gap = (name: (typeof gaps)[number], label: string) => (
    <Blank name={name} label={label} value={asked[name]} problem={problems[name]} inputmode="text" />
  )
  return (
    <form method="get" action={path} hx-get={path} hx-target="main" hx-select="main" hx-swap="outerHTML">
      <p class="ask">
        A lot with only {gap('good', 'Number that should rarely be sent back')} nonconforming should be sent back at
        most {gap('goodrisk', 'Times in 100 it may be sent back')} times in 100. Today we test{' '}
        {gap('percent', 'Percent tested today')} %; the contract’s or our own plan is{' '}
        {gap('own', 'A plan: cords to test / acceptance number')}, such as 50/1.
      </p>
      <p class="ask">
        Work out costs for {gap('mean', 'Percent nonconforming')} % nonconforming, as a belief worth{' '}
        {gap('worth', 'How many tested cords the belief is worth')} tested cords (without a number: as the share itself;
        both empty: as the finished lots say).
      </p>
      {gaps.map((name) => (
        <BlankProblem name={name} problem={problems[name]} />
      ))}
      <ChoiceField
        name="after"
        label="A lot that the plan rejects is"
        value={asked.after || after}
        options={[
          { value: 'return', ...rejectionWords.return },
          { value: 'screen', ...rejectionWords.screen },
        ]}
      />
      <button type="submit" class="plain">
        Work it out again
      </button>
    </form>
  )
}
