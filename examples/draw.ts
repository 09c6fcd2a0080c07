// Which cords to fetch: the draw that anybody can repeat from its seed.
import { drawUnits } from '../app/statistics/draw.ts'

const drawn = drawUnits({ lotSize: 876, sampleSize: 6, seed: '3546311556112163624615351222' })
console.log(`In the order drawn: ${drawn.join(', ')}`)
console.log(`In the order of the cartons: ${drawn.toSorted((one, other) => one - other).join(', ')}`)
