// What the buyer may say beside the item's terms; the address holds it.

import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { Blank, BlankProblem, ChoiceField } from '../form.tsx'

type Props = { lotId: number; asked: AdviceText; problems: Problems }

const gaps = ['good', 'goodrisk', 'percent', 'mean', 'worth'] as const

export function Wishes({ lotId, asked, problems }: Props) {
  const path = `/lots/${lotId}/advice`
  const gap = (name: (typeof gaps)[number], label: string) => (
    <Blank name={name} label={label} value={asked[name]} problem={problems[name]} />
  )
  return (
    <form method="get" action={path}>
      <p class="ask">
        A lot with only {gap('good', 'Number that should rarely be sent back')} that do not conform should be sent back
        at most {gap('goodrisk', 'Times in 100 it may be sent back')} times in 100. Today we test{' '}
        {gap('percent', 'Percent tested today')} %.
      </p>
      <p class="ask">
        I believe that {gap('mean', 'Percent believed not to conform')} % of this supplier’s cords do not conform, and
        that this is worth {gap('worth', 'How many tested cords the belief is worth')} tested cords (leave both empty to
        take what the record says).
      </p>
      {gaps.map((name) => (
        <BlankProblem name={name} problem={problems[name]} />
      ))}
      <ChoiceField
        name="after"
        label="A lot that the plan rejects is"
        value={asked.after}
        options={[
          { value: 'return', label: 'returned', note: 'at the cost of a returned lot' },
          { value: 'screen', label: 'screened', note: 'every cord left is tested, and none escapes' },
        ]}
      />
      <button type="submit" class="plain">
        Work it out again
      </button>
    </form>
  )
}
