// The method in four sentences, kept with every decision so that it can be followed without this program.

export const method = {
  judging:
    'A margin below 0 dB does not conform; from 0 up to but not including the tester’s accuracy it is marginal, and counts by the policy of the item; a failed wire map or visual inspection does not conform; a cord is its worst, judged on every digit that was entered.',
  drawing:
    'A simple random sample of the whole lot, from a seed made after the plan was frozen; who has the seed can draw it again. By cordsift-draw-1, for i = 1, 2, 3 …: the SHA-256 of the seed, a comma and i in decimal is one whole number, and its remainder by the lot size, plus 1, is a position; one that was drawn before is skipped. From i above 2,000,000, or above twice the lot size where that is more, the remainder is that by the number of positions not yet drawn, and counts them in ascending order from 0.',
  bounds:
    'Exact one-sided bounds for the lot in hand (hypergeometric, each at the confidence named): the most nonconforming cords with which so few would still be found that often. Sample cords left untested after a stop count as nonconforming in the upper bound and as conforming in the lower one. Where the plan has several stages the bounds belong to the plan and its end, the ends ordered from acceptance at the first stage to rejection at the first stage: the most nonconforming cords with which the plan would still end so, or better, that often; after a stop inside a later stage at most those with which it would have been accepted before, or have come to that stage, that often.',
  rows: 'The digest is the SHA-256 of lines in UTF-8, each ended by a line feed: first the names of the columns, then a line for each recorded cord in the order of positions, with the latest of its entries whose lot version is not above the one named. A line is a JSON array of texts without a space between them: margins with every digit that was entered, persons by number, true or false, times in UTC with six decimals of a second; what is not there is null.',
}
