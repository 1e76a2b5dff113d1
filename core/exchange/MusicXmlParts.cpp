#include "core/exchange/MusicXmlParts.h"

#include <map>
#include <string>

namespace earwright {

namespace {

void copyAttributes(pugi::xml_node to, pugi::xml_node from) {
    for (const pugi::xml_attribute attribute : from.attributes())
        to.append_copy(attribute);
}

std::string nameIn(pugi::xml_node listed, const std::string& otherwise) {
    const std::string name = partName(listed.child_value("part-name"), "");
    return name.empty() ? partName(listed.child_value("part-abbreviation"), otherwise) : name;
}

} // namespace

pugi::xml_node partwiseScore(pugi::xml_document& document) {
    const pugi::xml_node timewise = document.child("score-timewise");
    if (!timewise) return document.child("score-partwise");
    pugi::xml_node score = document.append_child("score-partwise");
    std::map<std::string, pugi::xml_node> parts;
    for (const pugi::xml_node child : timewise.children()) {
        if (std::string_view(child.name()) != "measure") {
            score.append_copy(child);
            continue;
        }
        for (const pugi::xml_node piece : child.children("part")) {
            const std::string id = piece.attribute("id").value();
            const auto [part, isNew] = parts.try_emplace(id);
            if (isNew) {
                part->second = score.append_child("part");
                part->second.append_attribute("id") = id.c_str();
            }
            pugi::xml_node measure = part->second.append_child("measure");
            copyAttributes(measure, child);
            for (pugi::xml_node element = piece.first_child(); element;) {
                const pugi::xml_node next = element.next_sibling();
                measure.append_move(element);
                element = next;
            }
        }
    }
    return score;
}

std::vector<ForeignPart> musicXmlParts(pugi::xml_node score) {
    std::map<std::string, pugi::xml_node> listed;
    for (const pugi::xml_node entry : score.child("part-list").children("score-part"))
        listed.try_emplace(entry.attribute("id").value(), entry);
    std::vector<ForeignPart> parts;
    for (const pugi::xml_node part : score.children("part")) {
        const std::string otherwise = "part " + std::to_string(parts.size() + 1);
        const auto entry = listed.find(part.attribute("id").value());
        ForeignPart found{entry == listed.end() ? otherwise : nameIn(entry->second, otherwise), 0, false};
        for (const pugi::xml_node measure : part.children("measure"))
            for (const pugi::xml_node note : measure.children("note")) {
                if (note.child("pitch") && !note.child("grace") && !note.child("cue")) ++found.notes;
                found.isDrums = found.isDrums || note.child("unpitched");
            }
        parts.push_back(std::move(found));
    }
    return parts;
}

} // namespace earwright
