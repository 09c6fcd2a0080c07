// What the buyer may say beside the item's terms; the address holds it.
import type { Advice } from '../../app/advice/advise.ts'
import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { counted } from '../figures.ts'
import { ChoiceField, ProblemSummary, ShortField } from '../form.tsx'
import { rejectionWords } from '../items/terms.tsx'
import { LiveForm } from '../live-form.tsx'

type Props = { lotId: number; asked: AdviceText; advice: Advice | undefined; problems: Problems }

type Asked = Exclude<keyof AdviceText, 'after'>

export function Wishes({ lotId, asked, advice, problems }: Props) {
  const path = `/lots/${lotId}/plan`
  const ask = (name: Asked, label: string, hint?: string) => (
    <ShortField name={name} label={label} hint={hint} value={asked[name]} problem={problems[name]} />
  )
  return (
    <LiveForm path={path}>
      <h2>What you ask of this lot</h2>
      <ProblemSummary problems={problems} />
      {advice && <FromTheItem advice={advice} />}
      {ask('good', 'A good lot has at most', 'nonconforming cords')}
      {ask('goodrisk', 'Of 100 good lots, reject at most')}
      {ask('percent', 'Percentage you test today')}
      {ask('own', 'The contract’s or your own plan', 'such as 50/1')}
      <details open={asked.mean !== '' || asked.worth !== ''}>
        <summary>Costs at a share you enter</summary>
        {ask('mean', 'Share nonconforming, %', 'empty: as the finished lots say')}
        {ask('worth', 'Worth so many tested cords', 'empty: the share is taken as known')}
      </details>
      <AfterRejection value={asked.after || advice?.requirements.afterRejection} />
      <button type="submit" class="plain">
        Work it out again
      </button>
    </LiveForm>
  )
}

function FromTheItem({ advice: { lot } }: { advice: Advice }) {
  const { tooMany, catchOf100 } = lot.terms
  return (
    <p>
      Too many: {counted(tooMany, 'nonconforming cord')}; catch {catchOf100} of 100 such lots.{' '}
      <small>From the item.</small>
    </p>
  )
}

function AfterRejection({ value }: { value: string | undefined }) {
  const options = (['return', 'screen'] as const).map((each) => ({ value: each, label: rejectionWords[each].label }))
  return <ChoiceField name="after" label="A rejected lot is" value={value} options={options} />
}
