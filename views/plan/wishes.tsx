// What the buyer may say beside the item's terms; the address holds it.

import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems } from '../../app/kit/problems.ts'
import type { AfterRejection } from '../../app/statistics/economics/costs.ts'
import { ChoiceField, ShortField } from '../form.tsx'
import { rejectionWords } from '../items/terms.tsx'

type Props = {
  lotId: number
  asked: AdviceText
  /** what the item says of a rejected lot */
  after: AfterRejection | undefined
  problems: Problems
}

type Asked = 'good' | 'goodrisk' | 'percent' | 'own' | 'mean' | 'worth'

export function Wishes({ lotId, asked, after, problems }: Props) {
  const path = `/lots/${lotId}/plan`
  const ask = (name: Asked, label: string, hint?: string) => (
    <ShortField name={name} label={label} hint={hint} value={asked[name]} problem={problems[name]} />
  )
  return (
    <form method="get" action={path} hx-get={path} hx-target="main" hx-select="main" hx-swap="outerHTML">
      <h1>What you ask of this lot</h1>
      {ask('good', 'A good lot has at most', 'nonconforming cords')}
      {ask('goodrisk', 'Of 100 good lots, reject at most')}
      {ask('percent', 'Percentage you test today')}
      {ask('own', 'The contract’s or your own plan', 'such as 50/1')}
      {ask('mean', 'Cost for a share nonconforming of, %', 'empty: as the finished lots say')}
      {ask('worth', 'As a belief worth so many tested cords', 'empty: the share is taken as known')}
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
