" Timber stairs written as text, and the file of a shop. The lists of words are written by a test, from the tool's own tables.
if exists('b:current_syntax')
  finish
endif
scriptencoding utf-8

" A pattern between signs that stand in none.
function! s:Quoted(pattern) abort
  return '~' . a:pattern . '~'
endfunction

" Any of the words that were listed last, whole, between what has to stand before and after.
function! s:Match(name, before, after) abort
  let l:whole = '\%(' . join(s:words, '\|') . '\)' . '\%([[:alnum:]_]\|[-''’]\a\)\@!'
  execute 'syntax match' a:name s:Quoted(a:before . l:whole . a:after)
endfunction

" Of what begins at one place the last one here counts. Words that are in no list are passed over, with the digits in them.
syntax match stairOther ~[[:alpha:]_][[:alnum:]_]*\%([-'’]\a[[:alnum:]_]*\)*~
" begin words
let s:words = []
let s:words += ['pressure-treated for ground contact', 'kiln-dried after treatment', 'treated for ground contact']
let s:words += ['not preservative-treated', 'dense select structural', 'douglas fir-larch north']
let s:words += ['fire-retardant-treated', 'slip-resistant varnish', 'the ends of the treads', 'hot-dipped galvanised']
let s:words += ['hot-dipped galvanized', 'spruce-pine-fir south', 'northern white cedar', 'not pressure-treated']
let s:words += ['preservative-treated', 'slip-resistant paint', 'southern yellow pine', 'alaska yellow cedar']
let s:words += ['away from the stair', 'grit in the varnish', 'mixed southern pine', 'sand in the varnish']
let s:words += ['construction grade', 'eastern white pine', 'hot-dip galvanised', 'hot-dip galvanized']
let s:words += ['redwood open grain', 'anti-slip varnish', 'douglas fir south', 'douglas fir-larch']
let s:words += ['grit in the paint', 'sand in the paint', 'select structural', 'structural select']
let s:words += ['varnish with sand', 'western red cedar', 'without treatment', 'anti-slip strips', 'european redwood']
let s:words += ['non-slip varnish', 'pressure-treated', 'abrasive strips', 'anti-slip paint', 'anti-slip strip']
let s:words += ['deck grip paint', 'exterior coated', 'no preservative', 'non-slip strips', 'paint with grit']
let s:words += ['paint with sand', 'safety terminal', 'sand in varnish', 'spruce-pine-fir', 'stainless steel']
let s:words += ['abrasive strip', 'anti-slip tape', 'carriage bolts', 'european larch', 'grooved across']
let s:words += ['ground contact', 'non-slip paint', 'non-slip strip', 'not galvanised', 'not understood']
let s:words += ['over the stair', 'polymer coated', 'ponderosa pine', 'siberian larch', 'standard grade']
let s:words += ['sweet chestnut', 'western cedars', 'abrasive tape', 'carpet runner', 'carriage bolt', 'floor varnish']
let s:words += ['grooved along', 'hem-fir north', 'never treated', 'non-slip tape', 'norway spruce', 'planed smooth']
let s:words += ['quarter right', 'sand in paint', 'sanded smooth', 'sanded strips', 'southern pine', 'utility grade']
let s:words += ['western cedar', 'western larch', 'yacht varnish', 'behind tread', 'black locust', 'black walnut']
let s:words += ['coach screws', 'common nails', 'construction', 'freestanding', 'hard wax oil', 'heat-treated']
let s:words += ['no treatment', 'not finished', 'quarter left', 'sanded paint', 'sanded strip', 'sinker nails']
let s:words += ['sitka spruce', 'spar varnish', 'ungalvanised', 'clear grade', 'coach bolts', 'common nail']
let s:words += ['countersunk', 'decking oil', 'douglas fir', 'floor paint', 'gloss paint', 'grip strips']
let s:words += ['grit strips', 'hardwax oil', 'linseed oil', 'non-treated', 'not checked', 'not painted']
let s:words += ['not treated', 'rectangular', 'sanded down', 'wood screws', 'No\.1 dense', 'No\.2 dense', 'both sides']
let s:words += ['coach bolt', 'danish oil', 'deck paint', 'dense No\.1', 'dense No\.2', 'galvanised', 'galvanized']
let s:words += ['grip paint', 'grip strip', 'grit strip', 'half right', 'kiln-dried', 'lag screws', 'left rough']
let s:words += ['no coating', 'not coated', 'rough sawn', 'sawn rough', 'scots pine', 'stud grade', 'unfinished']
let s:words += ['unseasoned', 'wood screw', 'SPF south', 'air-dried', 'at a post', 'balusters', 'both ways']
let s:words += ['box nails', 'grip tape', 'grit tape', 'half left', 'hex bolts', 'lacquered', 'lag bolts', 'lag screw']
let s:words += ['left bare', 'no finish', 'red maple', 'saw rough', 'stainless', 'the stair', 'unpainted', 'untreated']
let s:words += ['varnished', 'white oak', 'wire mesh', 'workplace', 'anchored', 'box nail', 'carpeted', 'carriage']
let s:words += ['chestnut', 'deck oil', 'doug fir', 'dwelling', 'hardwood', 'hex bolt', 'hex head', 'lag bolt']
let s:words += ['nut side', 'on tread', 'outdoors', 'profiled', 'returned', 'softwood', 'standard', 'straight']
let s:words += ['tung oil', 'uncoated', 'advised', 'cypress', 'general', 'grooved', 'grooves', 'hem-fir', 'hemlock']
let s:words += ['hexagon', 'hickory', 'indoors', 'lacquer', 'notched', 'nowhere', 'painted', 'private', 'red oak']
let s:words += ['redwood', 'robinia', 'sinkers', 'stained', 'treated', 'utility', 'varnish', 'across', 'bright']
let s:words += ['broken', 'carpet', 'coated', 'common', 'housed', 'planed', 'poplar', 'primed', 'primer', 'public']
let s:words += ['ribbed', 'sanded', 'screws', 'sealed', 'shared', 'sinker', 'slides', 'smooth', 'soaped', 'spruce']
let s:words += ['walnut', 'KD-HT', 'S-DRY', 'S-GRN', 'S-P-F', 'along', 'beech', 'birch', 'black', 'bolts', 'cedar']
let s:words += ['clear', 'green', 'iroko', 'larch', 'maple', 'nails', 'oiled', 'other', 'paint', 'plain', 'right']
let s:words += ['rough', 'round', 'screw', 'solid', 'stain', 'waxed', 'DF-L', 'KDAT', 'No\.1', 'No\.2', 'No\.3']
let s:words += ['UC3B', 'UC4A', 'UC4B', 'bare', 'bolt', 'down', 'foot', 'head', 'lags', 'left', 'mesh', 'nail', 'none']
let s:words += ['open', 'pine', 'ribs', 'soap', 'stud', 'teak', 'C14', 'C16', 'C18', 'C24', 'C30', 'D24', 'D30', 'D40']
let s:words += ['FRT', 'HDG', 'SPF', 'SYP', 'ash', 'box', 'dry', 'far', 'fir', 'hex', 'ipe', 'lag', 'oak', 'oil']
let s:words += ['wax', 'yes', 'A2', 'A4', 'HT', 'KD', 'PT', 'no', 'up']
" end words
call s:Match('stairWord', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
syntax match stairOpenText ~["“][^"”}]*~
syntax match stairText ~["“]\%(\\"\|[^"”]\)*["”]~ contains=@Spell
syntax match stairComment ~#\d\@!.*~ contains=@Spell
syntax match stairBy ~×\|[xX]\a\@!~
syntax match stairSign ~\%(#\|№[ \t]*\|\<[Nn]o\.[ \t]*\|\<No[ \t]*\)\d\+~
" begin units
let s:words = []
let s:words += ['degrees', 'degree', 'inches', 'sq ft', 'sq in', 'feet', 'foot', 'inch', 'kN/m', 'MPa', 'N/m', 'deg']
let s:words += ['kPa', 'lbs', 'mm2', 'mm²', 'plf', 'psf', 'psi', 'cm', 'ft', 'in', 'kN', 'lb', 'mm', 'N', 'm', 'º']
" end units
let s:amount = '\%(\d\+\%([/⁄]\d\+\|\.\d\+\|\%(-\|[ \t]\+\)\%(\d\+[/⁄]\d\+\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)\=\|\.\d\+\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)'
let s:inch = '\%(''''\|["″”]\)'
let s:unit = '[ \t]*[°º˚%]\|[ \t]\+in[ \t]\+' . s:amount . '\|d[[:alnum:]]\@!\|[ \t]*\%(' . join(s:words, '\|') . '\)\%([[:alnum:]]\)\@!'
let s:feet = '[''′’]\%(\%(-\|[ \t]*\)' . s:amount . s:inch . '\)\='
execute 'syntax match stairFigure ' . s:Quoted('\d\{4}-\d\d-\d\d\d\@!\|' . s:amount . '\%(' . s:inch . '\|' . s:feet . '\|' . s:unit . '\)\=')
" begin properties
let s:words = []
let s:words += ['width above recess', 'bottom extension', 'least elasticity', 'recess reached', 'between posts']
let s:words += ['bottom finish', 'top extension', 'baluster cut', 'hold-down by', 'recess depth', 'recess start']
let s:words += ['edge radius', 'longest bit', 'recess kept', 'row spacing', 'accessible', 'bottom gap', 'elasticity']
let s:words += ['from riser', 'from tread', 'front foot', 'open sides', 'recess end', 'total rise', 'balusters']
let s:words += ['clearance', 'continues', 'direction', 'first cut', 'hold-down', 'infill to', 'occupants', 'perimeter']
let s:words += ['thickness', 'threshold', 'total run', 'crushing', 'cut ends', 'diameter', 'handrail', 'hardness']
let s:words += ['headroom', 'overhang', 'standing', 'switches', 'to riser', 'to tread', 'bending', 'durable']
let s:words += ['end cut', 'end gap', 'fail on', 'gravity', 'housing', 'notched', 'section', 'setting', 'spacing']
let s:words += ['species', 'through', 'top gap', 'washers', 'access', 'across', 'boards', 'egress', 'finish', 'height']
let s:words += ['infill', 'length', 'narrow', 'nosing', 'risers', 'screws', 'spacer', 'spiral', 'stands', 'timber']
let s:words += ['along', 'below', 'bolts', 'count', 'depth', 'joins', 'nails', 'pilot', 'plate', 'rules', 'shape']
let s:words += ['shear', 'slope', 'swing', 'until', 'width', 'area', 'edge', 'ends', 'from', 'hole', 'lags', 'leaf']
let s:words += ['lean', 'only', 'over', 'plan', 'runs', 'ship', 'span', 'turn', 'cut', 'end', 'gap', 'set', 'use']
let s:words += ['why', 'at', 'by', 'on', 'to']
" end properties
call s:Match('stairProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'handrail', 'measured', 'stringer', 'ceiling', 'landing', 'section', 'winders']
let s:words += ['flight', 'folder', 'ground', 'timber', 'brace', 'guard', 'joint', 'stair', 'tread', 'waive', 'door']
let s:words += ['post', 'shop', 'wall', 'in']
" end kinds
call s:Match('stairKind', '\%(\%(^\|[{};:]\)[ \t]*\)\@<=', '\%(\%("[^"]*"\|“[^”]*”\|[^:;{}"#]\|#\d\)*{\)\@=')
highlight default link stairComment Comment
highlight default link stairText String
highlight default link stairOpenText Error
highlight default link stairFigure Number
highlight default link stairSign Number
highlight default link stairBy Operator
highlight default link stairWord Constant
highlight default link stairProperty Identifier
highlight default link stairKind Statement

syntax sync minlines=50
let b:current_syntax = 'stair'
