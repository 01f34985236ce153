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
call s:Match('stairRulesWord', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin things
let s:words = []
let s:words += ['riser boards', 'riser board', 'handrails', 'stringers', 'ceilings', 'handrail', 'landings']
let s:words += ['measured', 'sections', 'stringer', 'ceiling', 'flights', 'folders', 'grounds', 'landing', 'members']
let s:words += ['section', 'timbers', 'waivers', 'winders', 'braces', 'flight', 'folder', 'ground', 'guards', 'joints']
let s:words += ['member', 'risers', 'stairs', 'timber', 'treads', 'waiver', 'brace', 'doors', 'guard', 'joint']
let s:words += ['parts', 'posts', 'riser', 'shops', 'stair', 'tread', 'walls', 'door', 'part', 'post', 'shop', 'wall']
" end things
call s:Match('stairRulesThing', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin quantities
let s:words = []
let s:words += ['drop beside the steps within', 'nosing from the boards', 'edge beside the steps']
let s:words += ['far edge in diameters', 'length past the first', 'unguarded drop within', 'finished first riser']
let s:words += ['opening above ground', 'spacing in diameters', 'board height needed', 'finished last riser']
let s:words += ['height above ground', 'unrailed open sides', 'baluster remainder', 'board depth needed']
let s:words += ['treads wound twice', 'width above recess', 'width at the rails', 'edge in diameters']
let s:words += ['bottom extension', 'end in diameters', 'first cut needed', 'gap at the posts', 'triangle opening']
let s:words += ['winder spread at', 'board thickness', 'fastener length', 'reach to a rail', 'baluster count']
let s:words += ['baluster width', 'fastener count', 'handrail sides', 'most fasteners', 'quarter circle']
let s:words += ['recess reached', 'unrailed walls', 'balusters for', 'between posts', 'bottom finish', 'circumference']
let s:words += ['height spread', 'landing drawn', 'narrow radius', 'nosing spread', 'opening above', 'opening below']
let s:words += ['risers missed', 'switch floors', 'top extension', 'baluster cut', 'baluster gap', 'board height']
let s:words += ['depth needed', 'flight width', 'grain length', 'narrow depth', 'narrow going', 'post spacing']
let s:words += ['railed sides', 'recess depth', 'recess start', 'rise closure', 'riser spread', 'strip margin']
let s:words += ['two-by depth', 'width needed', 'winder count', 'board count', 'board depth', 'broad depth']
let s:words += ['broad going', 'drop within', 'edge length', 'edge radius', 'longest bit', 'nosing line']
let s:words += ['penetration', 'pilot share', 'recess kept', 'riser count', 'riser faces', 'row spacing']
let s:words += ['run closure', 'slenderness', 'thinner way', 'wall beside', 'accessible', 'bare sides', 'bottom gap']
let s:words += ['edge bevel', 'from riser', 'from tread', 'larger way', 'off square', 'open sides', 'other edge']
let s:words += ['projection', 'recess end', 'room above', 'room below', 'root share', 'run spread', 'total rise']
let s:words += ['wood ahead', 'balusters', 'clearance', 'continues', 'direction', 'elevation', 'first cut']
let s:words += ['hole play', 'infill to', 'occupants', 'perimeter', 'room left', 'thickness', 'threshold', 'total run']
let s:words += ['unit rise', 'cut ends', 'depth at', 'diagonal', 'diameter', 'even gap', 'fastener', 'hardness']
let s:words += ['headroom', 'nut room', 'overhang', 'set back', 'standing', 'switches', 'to riser', 'to tread']
let s:words += ['unit run', 'coating', 'durable', 'end cut', 'end gap', 'fail on', 'gravity', 'housing', 'notched']
let s:words += ['opening', 'setting', 'spacing', 'through', 'top gap', 'treated', 'washers', 'access', 'across']
let s:words += ['boards', 'egress', 'finish', 'height', 'infill', 'length', 'narrow', 'nosing', 'screws', 'spacer']
let s:words += ['spiral', 'stands', 'throat', 'way on', 'above', 'below', 'bolts', 'count', 'depth', 'girth', 'index']
let s:words += ['nails', 'pilot', 'pitch', 'place', 'shape', 'slope', 'stack', 'swing', 'until', 'width', 'area']
let s:words += ['edge', 'ends', 'foot', 'from', 'grip', 'hole', 'lags', 'leaf', 'lean', 'load', 'over', 'plan', 'rise']
let s:words += ['runs', 'ship', 'turn', 'cut', 'end', 'gap', 'run', 'use', 'on', 'to']
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
let s:words += ['width above recess', 'bottom extension', 'recess reached', 'between posts', 'bottom finish']
let s:words += ['top extension', 'baluster cut', 'recess depth', 'recess start', 'edge radius', 'longest bit']
let s:words += ['recess kept', 'row spacing', 'accessible', 'bottom gap', 'from riser', 'from tread', 'open sides']
let s:words += ['recess end', 'total rise', 'balusters', 'clearance', 'continues', 'direction', 'first cut']
let s:words += ['infill to', 'occupants', 'perimeter', 'thickness', 'threshold', 'total run', 'cut ends', 'diameter']
let s:words += ['handrail', 'hardness', 'headroom', 'overhang', 'standing', 'switches', 'to riser', 'to tread']
let s:words += ['durable', 'end cut', 'end gap', 'fail on', 'gravity', 'housing', 'notched', 'section', 'setting']
let s:words += ['spacing', 'species', 'through', 'top gap', 'washers', 'access', 'across', 'boards', 'egress']
let s:words += ['finish', 'height', 'infill', 'length', 'narrow', 'nosing', 'risers', 'screws', 'spacer', 'spiral']
let s:words += ['stands', 'timber', 'along', 'below', 'bolts', 'class', 'count', 'depth', 'joins', 'nails', 'pilot']
let s:words += ['rules', 'shape', 'slope', 'swing', 'until', 'width', 'area', 'edge', 'ends', 'from', 'hole', 'lags']
let s:words += ['leaf', 'lean', 'only', 'over', 'plan', 'runs', 'ship', 'turn', 'cut', 'end', 'gap', 'set', 'use']
let s:words += ['why', 'at', 'by', 'on', 'to']
" end properties
call s:Match('stairRulesProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'handrail', 'measured', 'stringer', 'ceiling', 'landing', 'section', 'winders']
let s:words += ['flight', 'folder', 'ground', 'timber', 'brace', 'guard', 'joint', 'stair', 'tread', 'waive', 'door']
let s:words += ['post', 'shop', 'wall', 'in']
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
