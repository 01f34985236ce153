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
let s:words += ['away from the stair', 'away from the steps', 'grit in the varnish', 'mixed southern pine']
let s:words += ['sand in the varnish', 'construction grade', 'eastern white pine', 'hot-dip galvanised']
let s:words += ['hot-dip galvanized', 'laminated tempered', 'redwood open grain', 'anti-slip varnish']
let s:words += ['douglas fir south', 'douglas fir-larch', 'grit in the paint', 'sand in the paint']
let s:words += ['select structural', 'structural select', 'varnish with sand', 'western red cedar']
let s:words += ['without treatment', 'anti-slip strips', 'european redwood', 'non-slip varnish', 'pressure-treated']
let s:words += ['abrasive strips', 'anti-slip paint', 'anti-slip strip', 'deck grip paint', 'exterior coated']
let s:words += ['no preservative', 'non-slip strips', 'paint with grit', 'paint with sand', 'safety terminal']
let s:words += ['sand in varnish', 'spruce-pine-fir', 'stainless steel', 'abrasive strip', 'anti-slip tape']
let s:words += ['carriage bolts', 'european larch', 'grooved across', 'ground contact', 'non-slip paint']
let s:words += ['non-slip strip', 'not galvanised', 'not understood', 'over the stair', 'over the steps']
let s:words += ['polymer coated', 'ponderosa pine', 'siberian larch', 'standard grade', 'sweet chestnut']
let s:words += ['western cedars', 'abrasive tape', 'carpet runner', 'carriage bolt', 'floor varnish', 'grooved along']
let s:words += ['hem-fir north', 'in the centre', 'never treated', 'non-slip tape', 'norway spruce', 'planed smooth']
let s:words += ['quarter right', 'sand in paint', 'sanded smooth', 'sanded strips', 'southern pine', 'utility grade']
let s:words += ['western cedar', 'western larch', 'yacht varnish', 'at a landing', 'behind tread', 'between ends']
let s:words += ['black locust', 'black walnut', 'coach screws', 'common nails', 'construction', 'freestanding']
let s:words += ['hard wax oil', 'heat-treated', 'no treatment', 'not finished', 'quarter left', 'sanded paint']
let s:words += ['sanded strip', 'sinker nails', 'sitka spruce', 'spar varnish', 'ungalvanised', 'at the wall']
let s:words += ['clear grade', 'coach bolts', 'common nail', 'countersunk', 'decking oil', 'douglas fir']
let s:words += ['floor paint', 'gloss paint', 'grip strips', 'grit strips', 'hardwax oil', 'linseed oil']
let s:words += ['non-treated', 'not checked', 'not painted', 'not treated', 'rectangular', 'sanded down']
let s:words += ['wood screws', 'No\.1 dense', 'No\.2 dense', 'both sides', 'coach bolt', 'danish oil', 'deck paint']
let s:words += ['dense No\.1', 'dense No\.2', 'galvanised', 'galvanized', 'grip paint', 'grip strip', 'grit strip']
let s:words += ['half right', 'kiln-dried', 'lag screws', 'left rough', 'no coating', 'not coated', 'rough sawn']
let s:words += ['sawn rough', 'scots pine', 'stud grade', 'unfinished', 'unseasoned', 'wood screw', 'SPF south']
let s:words += ['air-dried', 'at a post', 'at a turn', 'at an end', 'balusters', 'both ways', 'box nails', 'by itself']
let s:words += ['grip tape', 'grit tape', 'half left', 'hex bolts', 'lacquered', 'lag bolts', 'lag screw', 'laminated']
let s:words += ['left bare', 'no finish', 'red maple', 'saw rough', 'stainless', 'the stair', 'unpainted', 'untreated']
let s:words += ['varnished', 'white oak', 'wire mesh', 'workplace', 'anchored', 'annealed', 'box nail', 'carpeted']
let s:words += ['carriage', 'chestnut', 'deck oil', 'doug fir', 'dwelling', 'hardwood', 'hex bolt', 'hex head']
let s:words += ['lag bolt', 'nut side', 'on tread', 'outdoors', 'profiled', 'returned', 'softwood', 'standard']
let s:words += ['straight', 'tempered', 'tung oil', 'uncoated', 'advised', 'between', 'by hand', 'cypress', 'general']
let s:words += ['grooved', 'grooves', 'hem-fir', 'hemlock', 'hexagon', 'hickory', 'indoors', 'lacquer', 'notched']
let s:words += ['nowhere', 'painted', 'private', 'red oak', 'redwood', 'robinia', 'sinkers', 'stained', 'treated']
let s:words += ['turnout', 'utility', 'varnish', 'across', 'bright', 'broken', 'cables', 'carpet', 'coated', 'common']
let s:words += ['easing', 'housed', 'panels', 'planed', 'poplar', 'primed', 'primer', 'public', 'ribbed', 'sanded']
let s:words += ['screws', 'sealed', 'shared', 'sinker', 'slides', 'smooth', 'soaped', 'spruce', 'volute', 'walnut']
let s:words += ['KD-HT', 'S-DRY', 'S-GRN', 'S-P-F', 'along', 'beech', 'birch', 'black', 'bolts', 'cedar', 'clear']
let s:words += ['glass', 'green', 'inner', 'iroko', 'larch', 'maple', 'nails', 'newel', 'oiled', 'other', 'outer']
let s:words += ['paint', 'plain', 'rails', 'right', 'rough', 'round', 'screw', 'solid', 'stain', 'waxed', 'DF-L']
let s:words += ['KDAT', 'No\.1', 'No\.2', 'No\.3', 'UC3B', 'UC4A', 'UC4B', 'bare', 'bolt', 'down', 'foot', 'head']
let s:words += ['lags', 'left', 'mesh', 'nail', 'none', 'open', 'pine', 'ribs', 'soap', 'stud', 'teak', 'wall', 'C14']
let s:words += ['C16', 'C18', 'C24', 'C30', 'D24', 'D30', 'D40', 'FRT', 'HDG', 'SPF', 'SYP', 'ash', 'box', 'dry']
let s:words += ['far', 'fir', 'hex', 'ipe', 'lag', 'oak', 'oil', 'wax', 'yes', 'A2', 'A4', 'HT', 'KD', 'PT', 'no']
let s:words += ['up']
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
let s:words += ['width above recess', 'bottom extension', 'least elasticity', 'contrast below', 'recess reached']
let s:words += ['between posts', 'bottom finish', 'off the steps', 'toe board gap', 'top extension', 'baluster cut']
let s:words += ['hold-down by', 'recess depth', 'recess start', 'edge radius', 'interrupted', 'longest bit']
let s:words += ['recess kept', 'row spacing', 'accessible', 'bottom gap', 'elasticity', 'from riser', 'from tread']
let s:words += ['front foot', 'open sides', 'recess end', 'total rise', 'balusters', 'clearance', 'continues']
let s:words += ['direction', 'first cut', 'hold-down', 'infill to', 'occupants', 'panel gap', 'perimeter', 'thickness']
let s:words += ['threshold', 'toe board', 'total run', 'contrast', 'crushing', 'cut ends', 'diameter', 'handrail']
let s:words += ['hardness', 'headroom', 'overhang', 'standing', 'switches', 'to riser', 'to tread', 'bending']
let s:words += ['durable', 'end cut', 'end gap', 'fail on', 'gravity', 'housing', 'midrail', 'notched', 'section']
let s:words += ['setting', 'spacing', 'species', 'through', 'top gap', 'washers', 'access', 'across', 'begins']
let s:words += ['boards', 'cables', 'egress', 'finish', 'height', 'infill', 'length', 'narrow', 'nosing', 'risers']
let s:words += ['screws', 'spacer', 'spiral', 'stands', 'timber', 'along', 'below', 'bolts', 'class', 'count', 'depth']
let s:words += ['every', 'glass', 'joins', 'latch', 'nails', 'pilot', 'plate', 'rails', 'rules', 'shape', 'shear']
let s:words += ['slope', 'swing', 'until', 'width', 'area', 'edge', 'ends', 'from', 'give', 'hole', 'lags', 'leaf']
let s:words += ['lean', 'only', 'over', 'plan', 'runs', 'ship', 'snow', 'span', 'turn', 'cut', 'end', 'gap', 'set']
let s:words += ['use', 'why', 'at', 'by', 'on', 'to']
" end properties
call s:Match('stairProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'handrail', 'measured', 'stringer', 'bracket', 'ceiling', 'landing', 'section']
let s:words += ['winders', 'flight', 'folder', 'ground', 'timber', 'brace', 'guard', 'joint', 'stair', 'tread']
let s:words += ['waive', 'door', 'gate', 'post', 'shop', 'wall', 'well', 'in']
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
