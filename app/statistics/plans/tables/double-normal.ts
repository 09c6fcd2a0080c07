// Double sampling plans for normal inspection: two samples of n each; numbers are first sample; both samples together.
import { rowsOf, type Table } from './table.ts'

export const doubleNormal: Table = {
  title: 'Double sampling, normal inspection',
  source:
    'MIL-STD-105E (10 May 1989), Table III-A, from memory by the diagonal rule of the table; the plans J at 0.65 and K at ' +
    '0.65 are read in UK SI 1996/2636, Schedule 2. Checked by comparison with the single plan of the same cell. ' +
    'ISO 2859-1:1999 is said to differ where the single plan accepts 3 or 7 (from memory)',
  read: [
    { letters: ['J', 'J'], limits: ['0.65', '0.65'] },
    { letters: ['K', 'K'], limits: ['0.65', '0.65'] },
  ],
  otherwise: 'recalled',
  rows: rowsOf(`
     n  0.010 0.015 0.025   0.040   0.065   0.10    0.15    0.25      0.40       0.65        1.0         1.5         2.5         4.0         6.5         10
A    2  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓           ↓           ↓           ↓           ↓           =           ↓
B    2  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓           ↓           ↓           ↓           =           ↑           ↓
C    3  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓           ↓           ↓           =           ↑           ↓           0/2;1/2
D    5  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓           ↓           =           ↑           ↓           0/2;1/2     0/3;3/4
E    8  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          ↓           =           ↑           ↓           0/2;1/2     0/3;3/4     1/4;4/5
F   13  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         ↓          =           ↑           ↓           0/2;1/2     0/3;3/4     1/4;4/5     2/5;6/7
G   20  ↓     ↓     ↓       ↓       ↓       ↓       ↓       ↓         =          ↑           ↓           0/2;1/2     0/3;3/4     1/4;4/5     2/5;6/7     3/7;8/9
H   32  ↓     ↓     ↓       ↓       ↓       ↓       ↓       =         ↑          ↓           0/2;1/2     0/3;3/4     1/4;4/5     2/5;6/7     3/7;8/9     5/9;12/13
J   50  ↓     ↓     ↓       ↓       ↓       ↓       =       ↑         ↓          0/2;1/2     0/3;3/4     1/4;4/5     2/5;6/7     3/7;8/9     5/9;12/13   7/11;18/19
K   80  ↓     ↓     ↓       ↓       ↓       =       ↑       ↓         0/2;1/2    0/3;3/4     1/4;4/5     2/5;6/7     3/7;8/9     5/9;12/13   7/11;18/19  11/16;26/27
L  125  ↓     ↓     ↓       ↓       =       ↑       ↓       0/2;1/2   0/3;3/4    1/4;4/5     2/5;6/7     3/7;8/9     5/9;12/13   7/11;18/19  11/16;26/27 ↑
M  200  ↓     ↓     ↓       =       ↑       ↓       0/2;1/2 0/3;3/4   1/4;4/5    2/5;6/7     3/7;8/9     5/9;12/13   7/11;18/19  11/16;26/27 ↑           ↑
N  315  ↓     ↓     =       ↑       ↓       0/2;1/2 0/3;3/4 1/4;4/5   2/5;6/7    3/7;8/9     5/9;12/13   7/11;18/19  11/16;26/27 ↑           ↑           ↑
P  500  ↓     =     ↑       ↓       0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7   3/7;8/9    5/9;12/13   7/11;18/19  11/16;26/27 ↑           ↑           ↑           ↑
Q  800  =     ↑     ↓       0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7 3/7;8/9   5/9;12/13  7/11;18/19  11/16;26/27 ↑           ↑           ↑           ↑           ↑
R 1250  ↑     ↑     0/2;1/2 0/3;3/4 1/4;4/5 2/5;6/7 3/7;8/9 5/9;12/13 7/11;18/19 11/16;26/27 ↑           ↑           ↑           ↑           ↑           ↑
`),
}
