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
let s:words += ['western cedars', 'abrasive tape', 'carpet runner', 'carriage bolt', 'floor varnish', 'framing angle']
let s:words += ['grooved along', 'hem-fir north', 'in the centre', 'never treated', 'non-slip tape', 'norway spruce']
let s:words += ['on the treads', 'planed smooth', 'quarter right', 'sand in paint', 'sanded smooth', 'sanded strips']
let s:words += ['southern pine', 'utility grade', 'western cedar', 'western larch', 'yacht varnish', 'at a landing']
let s:words += ['behind tread', 'between ends', 'black locust', 'black walnut', 'coach screws', 'common nails']
let s:words += ['construction', 'freestanding', 'gypsum board', 'hard wax oil', 'heat-treated', 'no treatment']
let s:words += ['not finished', 'quarter left', 'sanded paint', 'sanded strip', 'sinker nails', 'sitka spruce']
let s:words += ['spar varnish', 'ungalvanised', 'at the wall', 'clear grade', 'coach bolts', 'common nail']
let s:words += ['countersunk', 'decking oil', 'douglas fir', 'floor paint', 'gloss paint', 'grip strips']
let s:words += ['grit strips', 'hardwax oil', 'linseed oil', 'non-treated', 'not checked', 'not painted']
let s:words += ['not treated', 'rectangular', 'sanded down', 'stair above', 'wood screws', 'No\.1 dense']
let s:words += ['No\.2 dense', 'both sides', 'coach bolt', 'danish oil', 'deck paint', 'dense No\.1', 'dense No\.2']
let s:words += ['dovetailed', 'face-fixed', 'galvanised', 'galvanized', 'grip paint', 'grip strip', 'grit strip']
let s:words += ['half right', 'kiln-dried', 'lag screws', 'left rough', 'no coating', 'not coated', 'rough sawn']
let s:words += ['sawn rough', 'scots pine', 'stud grade', 'unfinished', 'unseasoned', 'wood screw', 'SPF south']
let s:words += ['air-dried', 'all of it', 'at a post', 'at a turn', 'at an end', 'balusters', 'both ways', 'box nails']
let s:words += ['by itself', 'elsewhere', 'end grain', 'fasteners', 'grip tape', 'grit tape', 'half left', 'hex bolts']
let s:words += ['lacquered', 'lag bolts', 'lag screw', 'laminated', 'left bare', 'no finish', 'red maple', 'saw rough']
let s:words += ['stainless', 'the stair', 'unpainted', 'untreated', 'varnished', 'white oak', 'wire mesh', 'workplace']
let s:words += ['anchored', 'annealed', 'blocking', 'box nail', 'brackets', 'bulkhead', 'carpeted', 'carriage']
let s:words += ['chestnut', 'deck oil', 'doug fir', 'dwelling', 'hardwood', 'hex bolt', 'hex head', 'lag bolt']
let s:words += ['nut side', 'on tread', 'outdoors', 'profiled', 'returned', 'softwood', 'standard', 'straight']
let s:words += ['tempered', 'toenails', 'tung oil', 'uncoated', 'advised', 'between', 'by hand', 'cypress', 'footing']
let s:words += ['general', 'grooved', 'grooves', 'hangers', 'hem-fir', 'hemlock', 'hexagon', 'hickory', 'indoors']
let s:words += ['lacquer', 'landing', 'masonry', 'notched', 'nothing', 'nowhere', 'on edge', 'painted', 'plaster']
let s:words += ['private', 'red oak', 'redwood', 'robinia', 'sinkers', 'stained', 'treated', 'turnout', 'utility']
let s:words += ['varnish', 'across', 'angles', 'boards', 'bright', 'broken', 'cables', 'carpet', 'cleats', 'coated']
let s:words += ['common', 'easing', 'ground', 'hanger', 'housed', 'kicker', 'ledger', 'panels', 'pinned', 'planed']
let s:words += ['poplar', 'primed', 'primer', 'public', 'ribbed', 'sanded', 'screws', 'sealed', 'shared', 'sinker']
let s:words += ['slides', 'smooth', 'soaped', 'soffit', 'spruce', 'straps', 'volute', 'walnut', 'wedges', 'KD-HT']
let s:words += ['S-DRY', 'S-GRN', 'S-P-F', 'along', 'beech', 'birch', 'black', 'bolts', 'cedar', 'clear', 'floor']
let s:words += ['glass', 'green', 'inner', 'iroko', 'joist', 'larch', 'maple', 'nails', 'newel', 'oiled', 'other']
let s:words += ['outer', 'paint', 'panel', 'plain', 'rails', 'right', 'rough', 'round', 'screw', 'solid', 'stain']
let s:words += ['walls', 'waxed', 'DF-L', 'KDAT', 'No\.1', 'No\.2', 'No\.3', 'UC3B', 'UC4A', 'UC4B', 'bare', 'beam']
let s:words += ['bolt', 'door', 'down', 'flat', 'foot', 'head', 'lags', 'left', 'mesh', 'nail', 'none', 'open', 'pine']
let s:words += ['poor', 'ribs', 'rich', 'roof', 'soap', 'stud', 'teak', 'wall', 'C14', 'C16', 'C18', 'C24', 'C30']
let s:words += ['D24', 'D30', 'D40', 'FRT', 'HDG', 'SPF', 'SYP', 'ash', 'box', 'dry', 'far', 'fir', 'hex', 'ipe']
let s:words += ['lag', 'oak', 'oil', 'pad', 'wax', 'yes', 'A2', 'A4', 'HT', 'KD', 'PT', 'no', 'up']
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
let s:words += ['width above recess', 'midrail thickness', 'bottom extension', 'least elasticity', 'between flights']
let s:words += ['contrast below', 'dropped header', 'recess reached', 'strip of floor', 'baluster feet']
let s:words += ['between posts', 'bottom finish', 'off the steps', 'toe board gap', 'top extension', 'top rail lies']
let s:words += ['baluster cut', 'barrier edge', 'foot bearing', 'head bearing', 'hold-down by', 'reached from']
let s:words += ['recess depth', 'recess start', 'compression', 'edge radius', 'fall across', 'interrupted']
let s:words += ['longest bit', 'recess kept', 'row spacing', 'accessible', 'bottom gap', 'elasticity', 'foot notch']
let s:words += ['from riser', 'from tread', 'front foot', 'head notch', 'open sides', 'recess end', 'toe-nailed']
let s:words += ['top finish', 'total rise', 'widest gap', 'balusters', 'clearance', 'continues', 'direction']
let s:words += ['first cut', 'hold-down', 'infill to', 'occupants', 'panel gap', 'perimeter', 'rails lie', 'thickness']
let s:words += ['threshold', 'toe board', 'total run', 'contrast', 'crushing', 'cut ends', 'diameter', 'enclosed']
let s:words += ['handrail', 'hardness', 'headroom', 'last cut', 'leads on', 'overhang', 'rests on', 'standing']
let s:words += ['switches', 'to riser', 'to tread', 'barrier', 'bearing', 'bending', 'durable', 'end cut', 'end gap']
let s:words += ['fail on', 'gravity', 'held by', 'housing', 'midrail', 'notched', 'part of', 'read to', 'section']
let s:words += ['setting', 'spacing', 'species', 'through', 'tied by', 'top gap', 'washers', 'access', 'across']
let s:words += ['begins', 'behind', 'boards', 'cables', 'egress', 'finish', 'height', 'infill', 'length', 'let in']
let s:words += ['lining', 'narrow', 'nosing', 'rating', 'risers', 'screws', 'spacer', 'spiral', 'stands', 'tannin']
let s:words += ['timber', 'along', 'below', 'bolts', 'class', 'count', 'depth', 'every', 'glass', 'joins', 'latch']
let s:words += ['lined', 'nails', 'notch', 'pilot', 'plate', 'rails', 'rules', 'shape', 'shear', 'slope', 'swing']
let s:words += ['until', 'width', 'area', 'edge', 'ends', 'fall', 'foot', 'from', 'give', 'head', 'hole', 'lags']
let s:words += ['leaf', 'lean', 'only', 'over', 'plan', 'runs', 'ship', 'snow', 'span', 'turn', 'cut', 'end', 'gap']
let s:words += ['set', 'use', 'why', 'at', 'by', 'on', 'to']
" end properties
call s:Match('stairProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'space below', 'riser bar', 'handrail', 'measured', 'stringer', 'bracket', 'ceiling']
let s:words += ['landing', 'section', 'winders', 'flight', 'folder', 'ground', 'header', 'timber', 'brace', 'guard']
let s:words += ['joint', 'joist', 'stair', 'tread', 'waive', 'beam', 'door', 'gate', 'post', 'shop', 'wall', 'well']
let s:words += ['in']
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
