" Rules for timber stairs. The lists of words are written by a test, from the tool's own tables.
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
syntax match stairRulesOther ~[[:alpha:]_][[:alnum:]_]*\%([-'’]\a[[:alnum:]_]*\)*~
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
call s:Match('stairRulesWord', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin things
let s:words = []
let s:words += ['riser boards', 'riser board', 'handrails', 'stringers', 'brackets', 'ceilings', 'handrail']
let s:words += ['landings', 'measured', 'sections', 'stringer', 'bracket', 'ceiling', 'flights', 'folders', 'grounds']
let s:words += ['landing', 'members', 'section', 'timbers', 'waivers', 'winders', 'braces', 'flight', 'folder']
let s:words += ['ground', 'guards', 'joints', 'member', 'risers', 'stairs', 'timber', 'treads', 'waiver', 'brace']
let s:words += ['doors', 'gates', 'guard', 'joint', 'parts', 'posts', 'riser', 'shops', 'stair', 'tread', 'walls']
let s:words += ['wells', 'door', 'gate', 'part', 'post', 'shop', 'wall', 'well']
" end things
call s:Match('stairRulesThing', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin quantities
let s:words = []
let s:words += ['drop beside the steps within', 'taken at the narrow side', 'clear to the rail below']
let s:words += ['baluster bending ratio', 'level to the set above', 'nosing from the boards', 'edge beside the steps']
let s:words += ['far edge in diameters', 'length past the first', 'unguarded drop within', 'finished first riser']
let s:words += ['opening above ground', 'spacing in diameters', 'span over deflection', 'sweep over the steps']
let s:words += ['board height needed', 'finished last riser', 'height above ground', 'unrailed open sides']
let s:words += ['unrailed wide sides', 'baluster remainder', 'board depth needed', 'midrail off midway']
let s:words += ['overturning factor', 'treads wound twice', 'width above recess', 'width at the rails']
let s:words += ['edge in diameters', 'bottom extension', 'end in diameters', 'first cut needed', 'gap at the posts']
let s:words += ['least elasticity', 'reaches the rail', 'slack at the top', 'triangle opening', 'winder spread at']
let s:words += ['board thickness', 'fastener length', 'midrail opening', 'reach to a rail', 'toe board drawn']
let s:words += ['baluster count', 'baluster width', 'contrast below', 'fastener count', 'handrail sides']
let s:words += ['most fasteners', 'quarter circle', 'recess reached', 'unguarded drop', 'unrailed walls']
let s:words += ['balusters for', 'bending ratio', 'between posts', 'bottom finish', 'circumference', 'guards beside']
let s:words += ['height spread', 'landing drawn', 'lateral ratio', 'lateral value', 'midrail drawn', 'narrow radius']
let s:words += ['nosing spread', 'off the steps', 'opening above', 'opening below', 'risers missed', 'switch floors']
let s:words += ['toe board gap', 'top extension', 'baluster cut', 'baluster gap', 'board height', 'depth needed']
let s:words += ['flight width', 'grain length', 'narrow depth', 'narrow going', 'post spacing', 'railed sides']
let s:words += ['recess depth', 'recess start', 'rise closure', 'riser spread', 'strip margin', 'treads swept']
let s:words += ['two-by depth', 'width needed', 'winder count', 'board count', 'board depth', 'broad depth']
let s:words += ['broad going', 'drop within', 'edge length', 'edge radius', 'held behind', 'interrupted']
let s:words += ['longest bit', 'nosing line', 'penetration', 'pilot share', 'pole radius', 'push height']
let s:words += ['recess kept', 'riser count', 'riser faces', 'room behind', 'row spacing', 'run closure']
let s:words += ['shear ratio', 'slenderness', 'thinner way', 'wall beside', 'winder side', 'accessible', 'bare sides']
let s:words += ['bottom gap', 'clear span', 'edge bevel', 'elasticity', 'from riser', 'from tread', 'front foot']
let s:words += ['larger way', 'level span', 'load width', 'off square', 'open sides', 'other edge', 'projection']
let s:words += ['pull ratio', 'recess end', 'room above', 'room below', 'root share', 'run spread', 'total rise']
let s:words += ['upper pull', 'wood ahead', 'balusters', 'clearance', 'climbable', 'continues', 'dead load']
let s:words += ['direction', 'elevation', 'first cut', 'hold-down', 'hole play', 'infill to', 'level gap', 'occupants']
let s:words += ['panel gap', 'perimeter', 'room left', 'set above', 'snow load', 'thickness', 'threshold', 'toe board']
let s:words += ['total run', 'unit rise', 'contrast', 'crushing', 'cut ends', 'depth at', 'diagonal', 'diameter']
let s:words += ['even gap', 'fastener', 'hardness', 'headroom', 'nut room', 'overhang', 'set back', 'standing']
let s:words += ['switches', 'to riser', 'to tread', 'unit run', 'bending', 'coating', 'durable', 'end cut', 'end gap']
let s:words += ['fail on', 'gravity', 'housing', 'midrail', 'notched', 'opening', 'setting', 'spacing', 'through']
let s:words += ['top gap', 'treated', 'washers', 'access', 'across', 'begins', 'boards', 'cables', 'demand', 'egress']
let s:words += ['finish', 'height', 'infill', 'length', 'narrow', 'nosing', 'screws', 'spacer', 'spiral', 'stands']
let s:words += ['throat', 'way on', 'above', 'below', 'bolts', 'count', 'depth', 'every', 'girth', 'glass', 'index']
let s:words += ['latch', 'nails', 'pilot', 'pitch', 'place', 'plate', 'rails', 'shape', 'shear', 'slope', 'stack']
let s:words += ['swing', 'until', 'width', 'area', 'drop', 'duty', 'edge', 'ends', 'foot', 'from', 'give', 'grip']
let s:words += ['hole', 'lags', 'leaf', 'lean', 'load', 'over', 'plan', 'rise', 'runs', 'ship', 'side', 'snow', 'span']
let s:words += ['tier', 'turn', 'cut', 'end', 'gap', 'run', 'use', 'on', 'to']
" end quantities
call s:Match('stairRulesQuantity', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin clauses
let s:words = []
let s:words += ['largest decrease of', 'largest increase of', 'largest change of', 'of riser before', 'deviation of']
let s:words += ['riser after', 'should have', 'greater of', 'shall have', 'is one of', 'lesser of', 'number of']
let s:words += ['measured', 'smallest', 'largest', 'is not', 'unless', 'along', 'drawn', 'first', 'total', 'where']
let s:words += ['each', 'last', 'and', 'not', 'per', 'is', 'of', 'or']
" end clauses
call s:Match('stairRulesClause', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
syntax match stairRulesOpenText ~["“][^"”}]*~
syntax match stairRulesText ~["“]\%(\\"\|[^"”]\)*["”]~ contains=@Spell
syntax match stairRulesComment ~#\d\@!.*~ contains=@Spell
syntax match stairRulesBy ~×\|[xX]\a\@!~
syntax match stairRulesOperator ~<=\|>=\|!=\|[<>=≤≥≠+*/÷]\|[ \t]\@1<=-[ \t]\@=~
syntax match stairRulesSign ~\%(#\|№[ \t]*\|\<[Nn]o\.[ \t]*\|\<No[ \t]*\)\d\+~
" begin units
let s:words = []
let s:words += ['degrees', 'degree', 'inches', 'sq ft', 'sq in', 'feet', 'foot', 'inch', 'kN/m', 'MPa', 'N/m', 'deg']
let s:words += ['kPa', 'lbs', 'mm2', 'mm²', 'plf', 'psf', 'psi', 'cm', 'ft', 'in', 'kN', 'lb', 'mm', 'N', 'm', 'º']
" end units
let s:amount = '\%(\d\+\%([/⁄]\d\+\|\.\d\+\|\%(-\|[ \t]\+\)\%(\d\+[/⁄]\d\+\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)\=\|\.\d\+\|[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]\)'
let s:inch = '\%(''''\|["″”]\)'
let s:unit = '[ \t]*[°º˚%]\|[ \t]\+in[ \t]\+' . s:amount . '\|d[[:alnum:]]\@!\|[ \t]*\%(' . join(s:words, '\|') . '\)\%([[:alnum:]]\)\@!'
let s:feet = '[''′’]\%(\%(-\|[ \t]*\)' . s:amount . s:inch . '\)\='
execute 'syntax match stairRulesFigure ' . s:Quoted('\d\{4}-\d\d-\d\d\d\@!\|' . s:amount . '\%(' . s:inch . '\|' . s:feet . '\|' . s:unit . '\)\=')
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
call s:Match('stairRulesProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'handrail', 'measured', 'stringer', 'bracket', 'ceiling', 'landing', 'section']
let s:words += ['winders', 'flight', 'folder', 'ground', 'timber', 'brace', 'guard', 'joint', 'stair', 'tread']
let s:words += ['waive', 'door', 'gate', 'post', 'shop', 'wall', 'well', 'in']
" end kinds
call s:Match('stairRulesKind', '\%(\%(^\|[{};:]\)[ \t]*\)\@<=', '\%(\%("[^"]*"\|“[^”]*”\|[^:;{}"#]\|#\d\)*{\)\@=')
" begin parts
let s:words = []
let s:words += ['read between', 'limit by', 'because', 'caution', 'classes', 'edition', 'amends', 'passes', 'source']
let s:words += ['spares', 'basis', 'fails', 'limit', 'waive', 'where', 'says', 'sure', 'verb', 'for']
" end parts
call s:Match('stairRulesPart', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([^:{};"]*:\)\@=')
" begin blocks
let s:words = []
let s:words += ['amend figure', 'withdraw', 'chapter', 'ruleset', 'figure', 'amend', 'rule']
" end blocks
call s:Match('stairRulesBlock', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%(\%("[^"]*"\|“[^”]*”\|[^:;{}"#]\|#\d\)*{\)\@=')
highlight default link stairRulesComment Comment
highlight default link stairRulesText String
highlight default link stairRulesOpenText Error
highlight default link stairRulesFigure Number
highlight default link stairRulesSign Number
highlight default link stairRulesBy Operator
highlight default link stairRulesOperator Operator
highlight default link stairRulesClause Keyword
highlight default link stairRulesThing Type
highlight default link stairRulesQuantity Identifier
highlight default link stairRulesWord Constant
highlight default link stairRulesProperty Identifier
highlight default link stairRulesKind Statement
highlight default link stairRulesPart Identifier
highlight default link stairRulesBlock Statement

syntax sync minlines=50
let b:current_syntax = 'stairrules'
