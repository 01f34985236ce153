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
let s:words += ['planed smooth', 'quarter right', 'sand in paint', 'sanded smooth', 'sanded strips', 'southern pine']
let s:words += ['utility grade', 'western cedar', 'western larch', 'yacht varnish', 'at a landing', 'behind tread']
let s:words += ['between ends', 'black locust', 'black walnut', 'coach screws', 'common nails', 'construction']
let s:words += ['freestanding', 'gypsum board', 'hard wax oil', 'heat-treated', 'no treatment', 'not finished']
let s:words += ['quarter left', 'sanded paint', 'sanded strip', 'sinker nails', 'sitka spruce', 'spar varnish']
let s:words += ['ungalvanised', 'at the wall', 'clear grade', 'coach bolts', 'common nail', 'countersunk']
let s:words += ['decking oil', 'douglas fir', 'floor paint', 'gloss paint', 'grip strips', 'grit strips']
let s:words += ['hardwax oil', 'linseed oil', 'non-treated', 'not checked', 'not painted', 'not treated']
let s:words += ['rectangular', 'sanded down', 'stair above', 'wood screws', 'No\.1 dense', 'No\.2 dense', 'both sides']
let s:words += ['coach bolt', 'danish oil', 'deck paint', 'dense No\.1', 'dense No\.2', 'galvanised', 'galvanized']
let s:words += ['grip paint', 'grip strip', 'grit strip', 'half right', 'kiln-dried', 'lag screws', 'left rough']
let s:words += ['no coating', 'not coated', 'rough sawn', 'sawn rough', 'scots pine', 'stud grade', 'unfinished']
let s:words += ['unseasoned', 'wood screw', 'SPF south', 'air-dried', 'all of it', 'at a post', 'at a turn']
let s:words += ['at an end', 'balusters', 'both ways', 'box nails', 'by itself', 'elsewhere', 'end grain', 'fasteners']
let s:words += ['grip tape', 'grit tape', 'half left', 'hex bolts', 'lacquered', 'lag bolts', 'lag screw', 'laminated']
let s:words += ['left bare', 'no finish', 'red maple', 'saw rough', 'stainless', 'the stair', 'unpainted', 'untreated']
let s:words += ['varnished', 'white oak', 'wire mesh', 'workplace', 'anchored', 'annealed', 'blocking', 'box nail']
let s:words += ['brackets', 'bulkhead', 'carpeted', 'carriage', 'chestnut', 'deck oil', 'doug fir', 'dwelling']
let s:words += ['hardwood', 'hex bolt', 'hex head', 'lag bolt', 'nut side', 'on tread', 'outdoors', 'profiled']
let s:words += ['returned', 'softwood', 'standard', 'straight', 'tempered', 'toenails', 'tung oil', 'uncoated']
let s:words += ['advised', 'between', 'by hand', 'cypress', 'footing', 'general', 'grooved', 'grooves', 'hangers']
let s:words += ['hem-fir', 'hemlock', 'hexagon', 'hickory', 'indoors', 'lacquer', 'landing', 'masonry', 'notched']
let s:words += ['nothing', 'nowhere', 'on edge', 'painted', 'plaster', 'private', 'red oak', 'redwood', 'robinia']
let s:words += ['sinkers', 'stained', 'treated', 'turnout', 'utility', 'varnish', 'across', 'angles', 'boards']
let s:words += ['bright', 'broken', 'cables', 'carpet', 'cleats', 'coated', 'common', 'easing', 'ground', 'hanger']
let s:words += ['housed', 'kicker', 'ledger', 'panels', 'planed', 'poplar', 'primed', 'primer', 'public', 'ribbed']
let s:words += ['sanded', 'screws', 'sealed', 'shared', 'sinker', 'slides', 'smooth', 'soaped', 'soffit', 'spruce']
let s:words += ['straps', 'volute', 'walnut', 'wedges', 'KD-HT', 'S-DRY', 'S-GRN', 'S-P-F', 'along', 'beech', 'birch']
let s:words += ['black', 'bolts', 'cedar', 'clear', 'floor', 'glass', 'green', 'inner', 'iroko', 'joist', 'larch']
let s:words += ['maple', 'nails', 'newel', 'oiled', 'other', 'outer', 'paint', 'panel', 'plain', 'rails', 'right']
let s:words += ['rough', 'round', 'screw', 'solid', 'stain', 'walls', 'waxed', 'DF-L', 'KDAT', 'No\.1', 'No\.2']
let s:words += ['No\.3', 'UC3B', 'UC4A', 'UC4B', 'bare', 'beam', 'bolt', 'door', 'down', 'flat', 'foot', 'head']
let s:words += ['lags', 'left', 'mesh', 'nail', 'none', 'open', 'pine', 'poor', 'ribs', 'rich', 'roof', 'soap', 'stud']
let s:words += ['teak', 'wall', 'C14', 'C16', 'C18', 'C24', 'C30', 'D24', 'D30', 'D40', 'FRT', 'HDG', 'SPF', 'SYP']
let s:words += ['ash', 'box', 'dry', 'far', 'fir', 'hex', 'ipe', 'lag', 'oak', 'oil', 'pad', 'wax', 'yes', 'A2', 'A4']
let s:words += ['HT', 'KD', 'PT', 'no', 'up']
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
let s:words += ['contrast below', 'dropped header', 'recess reached', 'strip of floor', 'between posts']
let s:words += ['bottom finish', 'off the steps', 'toe board gap', 'top extension', 'top rail lies', 'baluster cut']
let s:words += ['barrier edge', 'foot bearing', 'head bearing', 'hold-down by', 'reached from', 'recess depth']
let s:words += ['recess start', 'compression', 'edge radius', 'interrupted', 'longest bit', 'recess kept']
let s:words += ['row spacing', 'accessible', 'bottom gap', 'elasticity', 'foot notch', 'from riser', 'from tread']
let s:words += ['front foot', 'head notch', 'open sides', 'recess end', 'toe-nailed', 'top finish', 'total rise']
let s:words += ['widest gap', 'balusters', 'clearance', 'continues', 'direction', 'first cut', 'hold-down']
let s:words += ['infill to', 'occupants', 'panel gap', 'perimeter', 'rails lie', 'thickness', 'threshold', 'toe board']
let s:words += ['total run', 'contrast', 'crushing', 'cut ends', 'diameter', 'enclosed', 'handrail', 'hardness']
let s:words += ['headroom', 'last cut', 'leads on', 'overhang', 'rests on', 'standing', 'switches', 'to riser']
let s:words += ['to tread', 'barrier', 'bearing', 'bending', 'durable', 'end cut', 'end gap', 'fail on', 'gravity']
let s:words += ['held by', 'housing', 'midrail', 'notched', 'part of', 'read to', 'section', 'setting', 'spacing']
let s:words += ['species', 'through', 'tied by', 'top gap', 'washers', 'access', 'across', 'begins', 'behind']
let s:words += ['boards', 'cables', 'egress', 'finish', 'height', 'infill', 'length', 'lining', 'narrow', 'nosing']
let s:words += ['rating', 'risers', 'screws', 'spacer', 'spiral', 'stands', 'tannin', 'timber', 'along', 'below']
let s:words += ['bolts', 'class', 'count', 'depth', 'every', 'glass', 'joins', 'latch', 'lined', 'nails', 'notch']
let s:words += ['pilot', 'plate', 'rails', 'rules', 'shape', 'shear', 'slope', 'swing', 'until', 'width', 'area']
let s:words += ['edge', 'ends', 'fall', 'foot', 'from', 'give', 'head', 'hole', 'lags', 'leaf', 'lean', 'only', 'over']
let s:words += ['plan', 'runs', 'ship', 'snow', 'span', 'turn', 'cut', 'end', 'gap', 'set', 'use', 'why', 'at', 'by']
let s:words += ['on', 'to']
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
