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
call s:Match('stairRulesWord', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin things
let s:words = []
let s:words += ['riser boards', 'spaces below', 'riser board', 'space below', 'riser bars', 'handrails', 'riser bar']
let s:words += ['stringers', 'brackets', 'ceilings', 'handrail', 'landings', 'measured', 'sections', 'stringer']
let s:words += ['bracket', 'ceiling', 'flights', 'folders', 'grounds', 'landing', 'members', 'section', 'timbers']
let s:words += ['waivers', 'winders', 'braces', 'flight', 'folder', 'ground', 'guards', 'joints', 'joists', 'member']
let s:words += ['risers', 'stairs', 'timber', 'treads', 'waiver', 'beams', 'brace', 'doors', 'gates', 'guard', 'joint']
let s:words += ['joist', 'parts', 'posts', 'riser', 'shops', 'stair', 'tread', 'walls', 'wells', 'beam', 'door']
let s:words += ['gate', 'part', 'post', 'shop', 'wall', 'well']
" end things
call s:Match('stairRulesThing', '\%([[:alnum:]_]\|\a[-''’]\)\@2<!', '')
" begin quantities
let s:words = []
let s:words += ['drop beside the steps within', 'room under the turn above', 'overhang over deflection']
let s:words += ['taken at the narrow side', 'clear to the rail below', 'baluster bending ratio']
let s:words += ['height off the drawing', 'level to the set above', 'nosing from the boards', 'overhang bending ratio']
let s:words += ['edge beside the steps', 'far edge in diameters', 'length past the first', 'underside at its prop']
let s:words += ['unguarded drop within', 'finished first riser', 'opening above ground', 'spacing in diameters']
let s:words += ['span over deflection', 'sweep over the steps', 'board height needed', 'edge past the steps']
let s:words += ['finished last riser', 'height above ground', 'measurements signed', 'outer string inward']
let s:words += ['room in the housing', 'room under its edge', 'unrailed open sides', 'unrailed wide sides']
let s:words += ['baluster remainder', 'board depth needed', 'flight above width', 'foot bearing ratio']
let s:words += ['foot bending ratio', 'head bearing ratio', 'head bending ratio', 'midrail off midway']
let s:words += ['overturning factor', 'treads wound twice', 'width above recess', 'width at the rails']
let s:words += ['edge in diameters', 'edge off the well', 'midrail thickness', 'room in the wedge', 'bottom extension']
let s:words += ['end in diameters', 'first cut needed', 'foot notch share', 'foot shear ratio', 'gap at the posts']
let s:words += ['head notch share', 'head shear ratio', 'least elasticity', 'reaches the rail', 'slack at the top']
let s:words += ['triangle opening', 'winder spread at', 'above its floor', 'between flights', 'board thickness']
let s:words += ['fastener length', 'flights abreast', 'head on its rim', 'last cut needed', 'midrail opening']
let s:words += ['reach to a rail', 'reaches a guard', 'toe board drawn', 'tread fasteners', 'baluster count']
let s:words += ['baluster width', 'coating stands', 'contrast below', 'dropped header', 'fastener count']
let s:words += ['foot fasteners', 'handrail sides', 'head fasteners', 'most fasteners', 'quarter circle']
let s:words += ['rail fasteners', 'recess reached', 'unguarded drop', 'unrailed walls', 'balusters for']
let s:words += ['bearing ratio', 'bending ratio', 'between posts', 'bottom finish', 'circumference', 'guards beside']
let s:words += ['height spread', 'landing drawn', 'lateral ratio', 'lateral value', 'midrail drawn', 'narrow radius']
let s:words += ['next fastener', 'nosing spread', 'off the steps', 'opening above', 'opening below', 'risers missed']
let s:words += ['spiral across', 'switch floors', 'tearing ratio', 'toe board gap', 'top extension', 'top rail lies']
let s:words += ['width lacking', 'baluster cut', 'baluster gap', 'barrier edge', 'board height', 'deck lacking']
let s:words += ['depth needed', 'flight width', 'foot bearing', 'grain length', 'group across', 'guard beside']
let s:words += ['head bearing', 'level length', 'narrow depth', 'narrow going', 'post spacing', 'pulled ratio']
let s:words += ['railed sides', 'reached from', 'recess depth', 'recess start', 'rise closure', 'riser spread']
let s:words += ['room beneath', 'room between', 'steps behind', 'strip margin', 'treads swept', 'two-by depth']
let s:words += ['width needed', 'winder count', 'wood beneath', 'board count', 'board depth', 'broad depth']
let s:words += ['broad going', 'compression', 'drop within', 'edge length', 'edge radius', 'group apart']
let s:words += ['held behind', 'interrupted', 'longest bit', 'next string', 'nosing line', 'notch share']
let s:words += ['penetration', 'pilot share', 'pole radius', 'prop height', 'push height', 'recess kept']
let s:words += ['riser count', 'riser faces', 'room behind', 'row spacing', 'run closure', 'shear ratio']
let s:words += ['slenderness', 'steps above', 'thinner way', 'wall behind', 'wall beside', 'winder side', 'accessible']
let s:words += ['bare sides', 'bottom gap', 'clear span', 'drawn span', 'edge bevel', 'elasticity', 'foot notch']
let s:words += ['from riser', 'from tread', 'front foot', 'head notch', 'larger way', 'leg height', 'level span']
let s:words += ['load width', 'off square', 'open sides', 'other edge', 'plate room', 'projection', 'pull ratio']
let s:words += ['rail depth', 'recess end', 'room above', 'room below', 'root share', 'run spread', 'seat depth']
let s:words += ['step depth', 'toe-nailed', 'top finish', 'total rise', 'upper pull', 'widest gap', 'wood ahead']
let s:words += ['worst load', 'balusters', 'bare edge', 'clearance', 'climbable', 'continues', 'dead load']
let s:words += ['direction', 'edge left', 'elevation', 'first cut', 'foot seat', 'hold-down', 'hole play', 'infill to']
let s:words += ['level gap', 'occupants', 'own posts', 'panel gap', 'perimeter', 'rails lie', 'room left', 'set above']
let s:words += ['snow load', 'thickness', 'threshold', 'toe board', 'total run', 'underside', 'unit rise', 'contrast']
let s:words += ['crushing', 'cut ends', 'depth at', 'diagonal', 'diameter', 'enclosed', 'even gap', 'fastener']
let s:words += ['hardness', 'headroom', 'last cut', 'leads on', 'nut room', 'overhang', 'post top', 'rests on']
let s:words += ['set back', 'standing', 'switches', 'to riser', 'to tread', 'unit run', 'barrier', 'bearing']
let s:words += ['bending', 'coating', 'durable', 'end cut', 'end gap', 'fail on', 'gravity', 'held by', 'housing']
let s:words += ['midrail', 'notched', 'opening', 'part of', 'read to', 'service', 'setting', 'spacing', 'through']
let s:words += ['tied by', 'top gap', 'treated', 'washers', 'access', 'across', 'begins', 'behind', 'boards', 'cables']
let s:words += ['demand', 'egress', 'finish', 'height', 'infill', 'length', 'let in', 'lining', 'narrow', 'nosing']
let s:words += ['rating', 'screws', 'spacer', 'spiral', 'stands', 'tannin', 'throat', 'way on', 'above', 'below']
let s:words += ['bolts', 'count', 'depth', 'every', 'girth', 'glass', 'grain', 'index', 'latch', 'lined', 'nails']
let s:words += ['notch', 'pilot', 'pitch', 'place', 'plate', 'props', 'rails', 'shape', 'shear', 'slope', 'spans']
let s:words += ['stack', 'swing', 'until', 'width', 'area', 'bays', 'drop', 'duty', 'edge', 'ends', 'fall', 'foot']
let s:words += ['from', 'give', 'grip', 'head', 'hole', 'lags', 'leaf', 'lean', 'load', 'over', 'plan', 'rise', 'runs']
let s:words += ['ship', 'side', 'snow', 'span', 'tier', 'turn', 'cut', 'end', 'gap', 'run', 'use', 'on', 'to']
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
let s:words += ['width above recess', 'midrail thickness', 'bottom extension', 'least elasticity', 'between flights']
let s:words += ['contrast below', 'dropped header', 'recess reached', 'between posts', 'bottom finish']
let s:words += ['off the steps', 'toe board gap', 'top extension', 'top rail lies', 'baluster cut', 'barrier edge']
let s:words += ['foot bearing', 'head bearing', 'hold-down by', 'reached from', 'recess depth', 'recess start']
let s:words += ['compression', 'edge radius', 'interrupted', 'longest bit', 'recess kept', 'row spacing', 'accessible']
let s:words += ['bottom gap', 'elasticity', 'foot notch', 'from riser', 'from tread', 'front foot', 'head notch']
let s:words += ['open sides', 'recess end', 'toe-nailed', 'top finish', 'total rise', 'widest gap', 'balusters']
let s:words += ['clearance', 'continues', 'direction', 'first cut', 'hold-down', 'infill to', 'occupants', 'panel gap']
let s:words += ['perimeter', 'rails lie', 'thickness', 'threshold', 'toe board', 'total run', 'contrast', 'crushing']
let s:words += ['cut ends', 'diameter', 'enclosed', 'handrail', 'hardness', 'headroom', 'last cut', 'leads on']
let s:words += ['overhang', 'rests on', 'standing', 'switches', 'to riser', 'to tread', 'barrier', 'bearing']
let s:words += ['bending', 'durable', 'end cut', 'end gap', 'fail on', 'gravity', 'held by', 'housing', 'midrail']
let s:words += ['notched', 'part of', 'read to', 'section', 'setting', 'spacing', 'species', 'through', 'tied by']
let s:words += ['top gap', 'washers', 'access', 'across', 'begins', 'behind', 'boards', 'cables', 'egress', 'finish']
let s:words += ['height', 'infill', 'length', 'lining', 'narrow', 'nosing', 'rating', 'risers', 'screws', 'spacer']
let s:words += ['spiral', 'stands', 'tannin', 'timber', 'along', 'below', 'bolts', 'class', 'count', 'depth', 'every']
let s:words += ['glass', 'joins', 'latch', 'lined', 'nails', 'notch', 'pilot', 'plate', 'rails', 'rules', 'shape']
let s:words += ['shear', 'slope', 'swing', 'until', 'width', 'area', 'edge', 'ends', 'fall', 'foot', 'from', 'give']
let s:words += ['head', 'hole', 'lags', 'leaf', 'lean', 'only', 'over', 'plan', 'runs', 'ship', 'snow', 'span', 'turn']
let s:words += ['cut', 'end', 'gap', 'set', 'use', 'why', 'at', 'by', 'on', 'to']
" end properties
call s:Match('stairRulesProperty', '\%(\%(^\|[{};]\)[ \t]*\)\@<=', '\%([ \t]*:\)\@=')
" begin kinds
let s:words = []
let s:words += ['riser board', 'space below', 'riser bar', 'handrail', 'measured', 'stringer', 'bracket', 'ceiling']
let s:words += ['landing', 'section', 'winders', 'flight', 'folder', 'ground', 'timber', 'brace', 'guard', 'joint']
let s:words += ['joist', 'stair', 'tread', 'waive', 'beam', 'door', 'gate', 'post', 'shop', 'wall', 'well', 'in']
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
