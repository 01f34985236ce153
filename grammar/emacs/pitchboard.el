;;; pitchboard.el --- Timber stairs written as text  -*- lexical-binding: t; -*-

;; Version: 0.2.0
;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages
;; SPDX-License-Identifier: MIT

;;; Commentary:

;; Modes for designs (`.stair'), a shop's file (`shop.pitchboard') and rules (`.rules'), and an
;; entry for Eglot, which starts `pitchboard lsp'.  Eglot comes with Emacs from version 29 on; before
;; that it is a package.  It was run with Emacs 28.2 and Eglot 1.9.
;;
;; The lists of words are written by a test, from the tool's own tables.
;;
;; A pass is no permit and no approval: local codes, the authority that has jurisdiction and licensed
;; practice decide.

;;; Code:

(defgroup pitchboard nil
  "Timber stairs written as text."
  :group 'languages)

;;;; Words

(defconst pitchboard-kinds
  '(
;; begin kinds
    "riser board" "space below" "riser bar" "handrail" "measured" "stringer" "bracket" "ceiling"
    "landing" "section" "winders" "flight" "folder" "ground" "header" "timber" "brace" "guard" "joint"
    "joist" "stair" "tread" "waive" "beam" "door" "gate" "post" "shop" "wall" "well" "in"
;; end kinds
    )
  "Words that open a block of a design.")

(defconst pitchboard-properties
  '(
;; begin properties
    "width above recess" "midrail thickness" "bottom extension" "least elasticity" "between flights"
    "contrast below" "dropped header" "recess reached" "strip of floor" "baluster feet" "between posts"
    "bottom finish" "off the steps" "toe board gap" "top extension" "top rail lies" "baluster cut"
    "barrier edge" "foot bearing" "head bearing" "hold-down by" "reached from" "recess depth"
    "recess start" "compression" "edge radius" "fall across" "interrupted" "longest bit" "recess kept"
    "row spacing" "accessible" "bottom gap" "elasticity" "foot notch" "from riser" "from tread"
    "front foot" "head notch" "open sides" "recess end" "toe-nailed" "top finish" "total rise"
    "widest gap" "balusters" "clearance" "continues" "direction" "first cut" "hold-down" "infill to"
    "occupants" "panel gap" "perimeter" "rails lie" "thickness" "threshold" "toe board" "total run"
    "contrast" "crushing" "cut ends" "diameter" "enclosed" "handrail" "hardness" "headroom" "last cut"
    "leads on" "overhang" "rests on" "standing" "switches" "to riser" "to tread" "barrier" "bearing"
    "bending" "durable" "end cut" "end gap" "fail on" "gravity" "held by" "housing" "midrail" "notched"
    "part of" "read to" "section" "setting" "spacing" "species" "through" "tied by" "top gap" "washers"
    "access" "across" "begins" "behind" "boards" "cables" "egress" "finish" "height" "infill" "length"
    "let in" "lining" "narrow" "nosing" "rating" "risers" "screws" "spacer" "spiral" "stands" "tannin"
    "timber" "along" "below" "bolts" "class" "count" "depth" "every" "glass" "joins" "latch" "lined"
    "nails" "notch" "pilot" "plate" "rails" "rules" "shape" "shear" "slope" "swing" "until" "width"
    "area" "edge" "ends" "fall" "foot" "from" "give" "head" "hole" "lags" "leaf" "lean" "only" "over"
    "plan" "runs" "ship" "snow" "span" "turn" "cut" "end" "gap" "set" "use" "why" "at" "by" "on" "to"
;; end properties
    )
  "Properties of all kinds.")

(defconst pitchboard-words
  '(
;; begin words
    "pressure-treated for ground contact" "kiln-dried after treatment" "treated for ground contact"
    "not preservative-treated" "dense select structural" "douglas fir-larch north"
    "fire-retardant-treated" "slip-resistant varnish" "the ends of the treads" "hot-dipped galvanised"
    "hot-dipped galvanized" "spruce-pine-fir south" "northern white cedar" "not pressure-treated"
    "preservative-treated" "slip-resistant paint" "southern yellow pine" "alaska yellow cedar"
    "away from the stair" "away from the steps" "grit in the varnish" "mixed southern pine"
    "sand in the varnish" "construction grade" "eastern white pine" "hot-dip galvanised"
    "hot-dip galvanized" "laminated tempered" "redwood open grain" "anti-slip varnish"
    "douglas fir south" "douglas fir-larch" "grit in the paint" "sand in the paint" "select structural"
    "structural select" "varnish with sand" "western red cedar" "without treatment" "anti-slip strips"
    "european redwood" "non-slip varnish" "pressure-treated" "abrasive strips" "anti-slip paint"
    "anti-slip strip" "deck grip paint" "exterior coated" "no preservative" "non-slip strips"
    "paint with grit" "paint with sand" "safety terminal" "sand in varnish" "spruce-pine-fir"
    "stainless steel" "abrasive strip" "anti-slip tape" "carriage bolts" "european larch"
    "grooved across" "ground contact" "non-slip paint" "non-slip strip" "not galvanised" "not understood"
    "over the stair" "over the steps" "polymer coated" "ponderosa pine" "siberian larch" "standard grade"
    "sweet chestnut" "western cedars" "abrasive tape" "carpet runner" "carriage bolt" "floor varnish"
    "framing angle" "grooved along" "hem-fir north" "in the centre" "never treated" "non-slip tape"
    "norway spruce" "on the treads" "planed smooth" "quarter right" "sand in paint" "sanded smooth"
    "sanded strips" "southern pine" "utility grade" "western cedar" "western larch" "yacht varnish"
    "at a landing" "behind tread" "between ends" "black locust" "black walnut" "coach screws"
    "common nails" "construction" "freestanding" "gypsum board" "hard wax oil" "heat-treated"
    "no treatment" "not finished" "quarter left" "sanded paint" "sanded strip" "sinker nails"
    "sitka spruce" "spar varnish" "ungalvanised" "at the wall" "clear grade" "coach bolts" "common nail"
    "countersunk" "decking oil" "douglas fir" "floor paint" "gloss paint" "grip strips" "grit strips"
    "hardwax oil" "linseed oil" "non-treated" "not checked" "not painted" "not treated" "rectangular"
    "sanded down" "stair above" "wood screws" "No.1 dense" "No.2 dense" "both sides" "coach bolt"
    "danish oil" "deck paint" "dense No.1" "dense No.2" "dovetailed" "face-fixed" "galvanised"
    "galvanized" "grip paint" "grip strip" "grit strip" "half right" "kiln-dried" "lag screws"
    "left rough" "no coating" "not coated" "rough sawn" "sawn rough" "scots pine" "stud grade"
    "unfinished" "unseasoned" "wood screw" "SPF south" "air-dried" "all of it" "at a post" "at a turn"
    "at an end" "balusters" "both ways" "box nails" "by itself" "elsewhere" "end grain" "fasteners"
    "grip tape" "grit tape" "half left" "hex bolts" "lacquered" "lag bolts" "lag screw" "laminated"
    "left bare" "no finish" "red maple" "saw rough" "stainless" "the stair" "unpainted" "untreated"
    "varnished" "white oak" "wire mesh" "workplace" "anchored" "annealed" "blocking" "box nail"
    "brackets" "bulkhead" "carpeted" "carriage" "chestnut" "deck oil" "doug fir" "dwelling" "hardwood"
    "hex bolt" "hex head" "lag bolt" "nut side" "on tread" "outdoors" "profiled" "returned" "softwood"
    "standard" "straight" "tempered" "toenails" "tung oil" "uncoated" "advised" "between" "by hand"
    "cypress" "footing" "general" "grooved" "grooves" "hangers" "hem-fir" "hemlock" "hexagon" "hickory"
    "indoors" "lacquer" "landing" "masonry" "notched" "nothing" "nowhere" "on edge" "painted" "plaster"
    "private" "red oak" "redwood" "robinia" "sinkers" "stained" "treated" "turnout" "utility" "varnish"
    "across" "angles" "boards" "bright" "broken" "cables" "carpet" "cleats" "coated" "common" "easing"
    "ground" "hanger" "housed" "kicker" "ledger" "panels" "pinned" "planed" "poplar" "primed" "primer"
    "public" "ribbed" "sanded" "screws" "sealed" "shared" "sinker" "slides" "smooth" "soaped" "soffit"
    "spruce" "straps" "volute" "walnut" "wedges" "KD-HT" "S-DRY" "S-GRN" "S-P-F" "along" "beech" "birch"
    "black" "bolts" "cedar" "clear" "floor" "glass" "green" "inner" "iroko" "joist" "larch" "maple"
    "nails" "newel" "oiled" "other" "outer" "paint" "panel" "plain" "rails" "right" "rough" "round"
    "screw" "solid" "stain" "walls" "waxed" "DF-L" "KDAT" "No.1" "No.2" "No.3" "UC3B" "UC4A" "UC4B"
    "bare" "beam" "bolt" "door" "down" "flat" "foot" "head" "lags" "left" "mesh" "nail" "none" "open"
    "pine" "poor" "ribs" "rich" "roof" "soap" "stud" "teak" "wall" "C14" "C16" "C18" "C24" "C30" "D24"
    "D30" "D40" "FRT" "HDG" "SPF" "SYP" "ash" "box" "dry" "far" "fir" "hex" "ipe" "lag" "oak" "oil" "pad"
    "wax" "yes" "A2" "A4" "HT" "KD" "PT" "no" "up"
;; end words
    )
  "Words that a property may hold.")

(defconst pitchboard-units
  '(
;; begin units
    "degrees" "degree" "inches" "sq ft" "sq in" "feet" "foot" "inch" "kN/m" "MPa" "N/m" "deg" "kPa" "lbs"
    "mm2" "mm²" "plf" "psf" "psi" "cm" "ft" "in" "kN" "lb" "mm" "N" "m" "º"
;; end units
    )
  "What may stand behind a figure.")

(defconst pitchboard-blocks
  '(
;; begin blocks
    "amend figure" "withdraw" "chapter" "ruleset" "figure" "amend" "is by" "rule"
;; end blocks
    )
  "Words that open a block of a set.")

(defconst pitchboard-parts
  '(
;; begin parts
    "read between" "formerly" "limit by" "because" "caution" "classes" "edition" "amends" "passes"
    "source" "spares" "basis" "fails" "limit" "waive" "where" "says" "sure" "verb" "and" "for"
;; end parts
    )
  "What stands in such a block.")

(defconst pitchboard-clauses
  '(
;; begin clauses
    "largest decrease of" "largest increase of" "largest change of" "of riser before" "deviation of"
    "riser after" "should have" "greater of" "shall have" "is one of" "lesser of" "number of" "measured"
    "smallest" "largest" "is not" "unless" "along" "drawn" "first" "total" "where" "each" "last" "and"
    "not" "per" "is" "of" "or"
;; end clauses
    )
  "Words of a clause.")

(defconst pitchboard-things
  '(
;; begin things
    "riser boards" "spaces below" "riser board" "space below" "riser bars" "handrails" "riser bar"
    "stringers" "brackets" "ceilings" "handrail" "landings" "measured" "sections" "stringer" "bracket"
    "ceiling" "flights" "folders" "grounds" "headers" "landing" "members" "section" "timbers" "waivers"
    "winders" "braces" "flight" "folder" "ground" "guards" "header" "joints" "joists" "member" "risers"
    "stairs" "timber" "treads" "waiver" "beams" "brace" "doors" "gates" "guard" "joint" "joist" "parts"
    "posts" "riser" "shops" "stair" "tread" "walls" "wells" "beam" "door" "gate" "part" "post" "shop"
    "wall" "well"
;; end things
    )
  "Kinds, one and many.")

(defconst pitchboard-quantities
  '(
;; begin quantities
    "drop beside the steps within" "room under the turn above" "overhang over deflection"
    "taken at the narrow side" "clear to the rail below" "baluster bending ratio"
    "height off the drawing" "level to the set above" "nosing from the boards" "overhang bending ratio"
    "edge beside the steps" "far edge in diameters" "length past the first" "underside at its prop"
    "unguarded drop within" "drawn from end grain" "finished first riser" "infill bending ratio"
    "opening above ground" "spacing in diameters" "span over deflection" "sweep over the steps"
    "tread below the feet" "board height needed" "edge past the steps" "finished last riser"
    "height above ground" "measurements signed" "outer string inward" "room in the housing"
    "room under its edge" "unrailed open sides" "unrailed wide sides" "baluster remainder"
    "board depth needed" "flight above width" "foot bearing ratio" "foot bending ratio"
    "head bearing ratio" "head bending ratio" "midrail off midway" "overturning factor"
    "treads wound twice" "width above recess" "width at the rails" "edge in diameters"
    "edge off the well" "midrail thickness" "room in the wedge" "bottom extension" "end in diameters"
    "first cut needed" "foot notch share" "foot shear ratio" "gap at the posts" "head notch share"
    "head shear ratio" "least elasticity" "reaches the rail" "slack at the top" "triangle opening"
    "winder spread at" "above its floor" "between flights" "board thickness" "fastener length"
    "flights abreast" "head on its rim" "last cut needed" "midrail opening" "reach to a rail"
    "reaches a guard" "toe board drawn" "tread fasteners" "baluster count" "baluster width"
    "coating stands" "contrast below" "dropped header" "fastener count" "foot fasteners" "handrail sides"
    "head fasteners" "most fasteners" "past its grade" "quarter circle" "rail fasteners" "recess reached"
    "strip of floor" "unguarded drop" "unrailed walls" "baluster feet" "balusters for" "bearing ratio"
    "bending ratio" "between posts" "bottom finish" "circumference" "guards beside" "height spread"
    "landing drawn" "lateral ratio" "lateral value" "midrail drawn" "narrow radius" "next fastener"
    "nosing spread" "off the steps" "opening above" "opening below" "risers missed" "spiral across"
    "switch floors" "tearing ratio" "toe board gap" "top extension" "top rail lies" "width lacking"
    "baluster cut" "baluster gap" "barrier edge" "board height" "column ratio" "deck lacking"
    "depth needed" "flight width" "foot bearing" "grain length" "group across" "guard beside"
    "head bearing" "level length" "narrow depth" "narrow going" "post spacing" "pulled ratio"
    "railed sides" "reached from" "recess depth" "recess start" "rise closure" "riser spread"
    "room beneath" "room between" "steps behind" "strip margin" "tallest post" "treads swept"
    "two-by depth" "width needed" "winder count" "wood beneath" "board count" "board depth" "broad depth"
    "broad going" "compression" "drop within" "edge length" "edge radius" "fall across" "group apart"
    "held behind" "interrupted" "longest bit" "next string" "nosing line" "notch share" "penetration"
    "pilot share" "pole radius" "prop height" "push height" "recess kept" "riser count" "riser faces"
    "room behind" "row spacing" "run closure" "shear ratio" "slenderness" "steps above" "thinner way"
    "wall behind" "wall beside" "winder side" "accessible" "bare sides" "bottom gap" "carried by"
    "clear span" "drawn span" "edge bevel" "elasticity" "foot notch" "from riser" "from tread"
    "front foot" "head notch" "larger way" "leg height" "level span" "load width" "off square"
    "open sides" "other edge" "plate room" "projection" "pull ratio" "rail depth" "rail posts"
    "recess end" "room above" "room below" "root share" "run spread" "seat depth" "step depth"
    "toe-nailed" "top finish" "total rise" "upper pull" "widest gap" "wood ahead" "worst load"
    "balusters" "bare edge" "clearance" "climbable" "continues" "dead load" "direction" "edge left"
    "elevation" "first cut" "foot seat" "hold-down" "hole play" "infill to" "level gap" "occupants"
    "own posts" "panel gap" "perimeter" "rails lie" "room left" "set above" "snow load" "thickness"
    "threshold" "toe board" "total run" "underside" "unit rise" "contrast" "crushing" "cut ends"
    "depth at" "diagonal" "diameter" "enclosed" "even gap" "fastener" "hardness" "headroom" "last cut"
    "leads on" "nut room" "overhang" "post top" "rests on" "set back" "standing" "switches" "to riser"
    "to tread" "unit run" "barrier" "bearing" "bending" "carries" "coating" "durable" "end cut" "end gap"
    "fail on" "gravity" "held by" "housing" "midrail" "notched" "opening" "part of" "read to" "service"
    "setting" "spacing" "through" "tied by" "top gap" "treated" "washers" "access" "across" "begins"
    "behind" "boards" "cables" "demand" "egress" "finish" "height" "infill" "length" "let in" "lining"
    "narrow" "nosing" "rating" "screws" "spacer" "spiral" "stands" "tannin" "throat" "way on" "above"
    "below" "bolts" "count" "depth" "every" "girth" "glass" "grain" "index" "latch" "lined" "nails"
    "notch" "pilot" "pitch" "place" "plate" "props" "rails" "shape" "shear" "slope" "spans" "stack"
    "swing" "until" "width" "area" "bays" "drop" "duty" "edge" "ends" "fall" "foot" "from" "give" "grip"
    "head" "hole" "lags" "leaf" "lean" "legs" "load" "over" "plan" "rise" "runs" "ship" "side" "snow"
    "span" "tier" "turn" "cut" "end" "gap" "run" "use" "on" "to"
;; end quantities
    )
  "What a rule may ask of a thing.")

;;;; Signs

(defconst pitchboard--vulgar "[½¼¾⅛⅜⅝⅞⅓⅔⅙⅚⅕⅖⅗⅘]")

(defconst pitchboard--amount
  (let ((fraction (concat "\\(?:[0-9]+[/⁄][0-9]+\\|" pitchboard--vulgar "\\)")))
    (concat "\\(?:[0-9]+\\(?:[/⁄][0-9]+\\|\\.[0-9]+\\|\\(?:-\\|[ \t]+\\)" fraction
            "\\|" pitchboard--vulgar "\\)?\\|\\.[0-9]+\\|" pitchboard--vulgar "\\)")))

(defconst pitchboard--inch "\\(?:''\\|[\"″”]\\)")

(defconst pitchboard--figure
  (concat "[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]\\|"
          pitchboard--amount
          "\\(?:" pitchboard--inch
          "\\|['′’]\\(?:\\(?:-\\|[ \t]*\\)" pitchboard--amount pitchboard--inch "\\)?"
          "\\|[ \t]*[°º˚%]"
          "\\|[ \t]+in[ \t]+" pitchboard--amount
          "\\|d\\_>"
          "\\|[ \t]*" (regexp-opt pitchboard-units) "\\_>\\)?")
  "A figure with its unit; an inch mark belongs to it, and opens no text.")

(defconst pitchboard--token
  (concat "\\(?1:[[:alpha:]_][[:alnum:]_]*\\(?:[-'’][[:alpha:]][[:alnum:]_]*\\)*\\)"
          "\\|\\(?2:#[0-9]+\\)"
          "\\|\\(?3:" pitchboard--figure "\\)"
          "\\|\\(?4:[\"“]\\(?:\\\\\"\\|[^\"”\n]\\)*[\"”]\\|[\"“][^}\n]+\\)"
          "\\|\\(?5:#\\)")
  "What stands for itself: a word, a number sign, a figure, a text, a comment.
A text that is left open ends before a brace.")

(defvar pitchboard-mode-syntax-table
  (let ((table (make-syntax-table)))
    ;; Only where `pitchboard--propertize' says so do these open a comment or a text.
    (dolist (sign '(?\" ?# ?' ?“ ?” ?\\))
      (modify-syntax-entry sign "." table))
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?_ "w" table)
    (modify-syntax-entry ?{ "(}" table)
    (modify-syntax-entry ?} "){" table)
    table)
  "Syntax of both languages.")

(defun pitchboard--put (at syntax)
  "Give the character AT the SYNTAX."
  (put-text-property at (1+ at) 'syntax-table (string-to-syntax syntax)))

(defun pitchboard--propertize (start end)
  "Mark what opens and ends comments and texts between START and END."
  (goto-char start)
  (beginning-of-line)
  (while (re-search-forward pitchboard--token end t)
    (cond
     ((match-beginning 4)
      (pitchboard--put (match-beginning 4) "|")
      (pitchboard--put (1- (match-end 4)) "|"))
     ((match-beginning 5)
      (pitchboard--put (match-beginning 5) "<")
      (goto-char (min end (line-end-position)))))))

;;;; Colours

(defun pitchboard--before (signs)
  "Where a statement begins: at a line, or behind one of SIGNS."
  (concat "\\(?:^\\|[" signs "]\\)[ \t]*"))

(defconst pitchboard--head-follows
  "\\(?:\"[^\"\n]*\"\\|“[^”\n]*”\\|[^:;{}\"#\n]\\|#[0-9]\\)*{"
  "From the word that opens a block to its brace.")

(defconst pitchboard-font-lock-design
  `((,(concat (pitchboard--before "{};:") "\\(" (regexp-opt pitchboard-kinds) "\\_>\\)" pitchboard--head-follows)
     (1 font-lock-keyword-face))
    (,(concat (pitchboard--before "{};") "\\(" (regexp-opt pitchboard-properties) "\\)[ \t]*:")
     (1 font-lock-variable-name-face))
    (pitchboard--figure-ahead (0 font-lock-constant-face))
    (,(concat "\\_<" (regexp-opt pitchboard-words) "\\_>") (0 font-lock-builtin-face)))
  "Colours of a design.")

(defconst pitchboard-font-lock-rules
  `((,(concat (pitchboard--before "{};") "\\(" (regexp-opt pitchboard-blocks) "\\_>\\)" pitchboard--head-follows)
     (1 font-lock-keyword-face))
    (,(concat (pitchboard--before "{};") "\\(" (regexp-opt pitchboard-parts) "\\_>\\)[^:{};\"\n]*:")
     (1 font-lock-variable-name-face))
    ,@pitchboard-font-lock-design
    (,(concat "\\_<" (regexp-opt pitchboard-clauses) "\\_>") (0 font-lock-keyword-face))
    (,(concat "\\_<" (regexp-opt pitchboard-quantities) "\\_>") (0 font-lock-variable-name-face))
    (,(concat "\\_<" (regexp-opt pitchboard-things) "\\_>") (0 font-lock-type-face)))
  "Colours of a set.")

(defun pitchboard--figure-ahead (limit)
  "Find the next figure or number sign before LIMIT; digits within a word are none."
  (let (found)
    (while (and (not found) (re-search-forward pitchboard--token limit t))
      (setq found (or (match-beginning 2) (match-beginning 3)))
      (when (match-beginning 5)
        (goto-char (min limit (line-end-position)))))
    found))

;;;; Modes

(define-derived-mode pitchboard--mode prog-mode "Stair"
  "What both modes have in common."
  :syntax-table pitchboard-mode-syntax-table
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]+")
  (setq-local comment-end "")
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 4)
  (setq-local indent-line-function #'pitchboard-indent-line)
  (setq-local electric-indent-chars '(?\n ?}))
  (setq-local parse-sexp-lookup-properties t)
  (setq-local syntax-propertize-function #'pitchboard--propertize))

(defun pitchboard-indent-line ()
  "Four blanks for each brace that is open."
  (interactive)
  (let* ((depth (save-excursion (car (syntax-ppss (line-beginning-position)))))
         (closes (save-excursion (back-to-indentation) (looking-at-p "}")))
         (column (* 4 (max 0 (if closes (1- depth) depth)))))
    (if (<= (current-column) (current-indentation))
        (indent-line-to column)
      (save-excursion (indent-line-to column)))))

;;;###autoload
(define-derived-mode stair-mode pitchboard--mode "Stair"
  "Mode for timber stairs written as text, and for a shop's file."
  (setq-local font-lock-defaults '(pitchboard-font-lock-design)))

;;;###autoload
(define-derived-mode stair-rules-mode pitchboard--mode "Stair rules"
  "Mode for the rules that a stair is checked against."
  (setq-local font-lock-defaults '(pitchboard-font-lock-rules)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.stair\\'" . stair-mode))
;;;###autoload
(add-to-list 'auto-mode-alist '("/shop\\.pitchboard\\'" . stair-mode))
;;;###autoload
(add-to-list 'auto-mode-alist '("\\.rules\\'" . stair-rules-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '((stair-mode stair-rules-mode) . ("pitchboard" "lsp"))))

(provide 'pitchboard)
;;; pitchboard.el ends here
